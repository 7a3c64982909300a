package fit

import (
	"math"
	"slices"

	"tasset/body"
	"tasset/internal/geom"
)

// segments that lie beyond each joint, and move when it turns.
var beyond = map[string][]body.Segment{
	"hip":      {body.Thigh, body.Shank, body.Foot},
	"knee":     {body.Shank, body.Foot},
	"ankle":    {body.Foot},
	"shoulder": {body.UpperArm, body.Forearm, body.Hand},
	"elbow":    {body.Forearm, body.Hand},
	"wrist":    {body.Hand},
	"neck":     {body.Head},
}

// joints beyond each joint, whose floating pieces move with it.
var jointsBeyond = map[string][]string{
	"hip": {"knee", "ankle"}, "knee": {"ankle"}, "shoulder": {"elbow", "wrist"}, "elbow": {"wrist"},
}

// remaining are the segments and joints that stand still and whose pieces may be
// met; a gorget rests on the shoulders, so that it stays when the head turns.
var remaining = map[string]struct {
	segments []body.Segment
	joints   []string
	other    bool // the other limb too
}{
	"hip":      {segments: []body.Segment{body.Torso}, other: true},
	"knee":     {segments: []body.Segment{body.Thigh}},
	"ankle":    {segments: []body.Segment{body.Shank}},
	"shoulder": {segments: []body.Segment{body.Torso, body.Neck, body.Head}, joints: []string{"neck"}},
	"elbow":    {segments: []body.Segment{body.UpperArm}, joints: []string{"shoulder"}},
	"wrist":    {segments: []body.Segment{body.Forearm}},
	"neck":     {segments: []body.Segment{body.Torso, body.Neck, body.UpperArm}, joints: []string{"shoulder"}},
}

// carried is a rigid part as a joint turns it.
type carried struct {
	*worn
	moving bool    // it lies beyond the joint
	share  float64 // of the joint's turn that it makes
	most   float64 // a lame's: only up to this turn of the joint, rad; 0: all the way
	base   float64 // a lame's: its share of the rest, which is its piece's
}

// turn is how far the part has turned when the joint has by angle.
func (c *carried) turn(angle float64) float64 {
	if c.most == 0 {
		return c.share * angle
	}
	bent := min(angle, c.most)
	return c.base*(angle-bent) + c.share*bent
}

// sameAs tells whether two parts turn alike.
func (c *carried) sameAs(d *carried) bool {
	return c.share == d.share && c.most == d.most && c.base == d.base
}

// carriedBy are the parts of a suit that a joint turns or that what it turns
// may meet.
func (h *hinge) carriedBy(all []*worn) []*carried {
	var out []*carried
	for _, w := range all {
		if c := h.carry(w); c != nil && !h.hangs(c, all) {
			out = append(out, c)
		}
	}
	return out
}

// hangs tells whether a piece on the thigh hangs by straps from one on the trunk:
// the leg lifts it, so that it keeps no hip from bending.
func (h *hinge) hangs(c *carried, all []*worn) bool {
	if h.joint != "hip" || !c.moving {
		return false
	}
	return slices.ContainsFunc(all, func(w *worn) bool {
		return w.piece.Segment == body.Torso && slices.Contains(c.piece.With, w.piece.Template)
	})
}

// carry tells how the joint turns a part; nil if it has nothing to do with it.
func (h *hinge) carry(w *worn) *carried {
	p := w.piece
	mine := w.side == h.side || w.side == body.Both || h.side == body.Both
	switch {
	case p.Joint == h.joint && mine:
		return h.withLames(&carried{worn: w, share: 0.5})
	case mine && (slices.Contains(beyond[h.joint], p.Segment) || p.Joint != "" && slices.Contains(jointsBeyond[h.joint], p.Joint)):
		return h.withLames(&carried{worn: w, moving: true, share: 1})
	case mine && (slices.Contains(remaining[h.joint].segments, p.Segment) || p.Joint != "" && slices.Contains(remaining[h.joint].joints, p.Joint)):
		return h.withLames(&carried{worn: w})
	case !mine && remaining[h.joint].other && (slices.Contains(beyond[h.joint], p.Segment) || slices.Contains(jointsBeyond[h.joint], p.Joint)):
		return &carried{worn: w}
	}
	return nil
}

// withLames lets a lame turn with the run that bends: evenly from one end of the
// run to the other, as far as the run bends. The run of a piece that does not
// float turns with the joint that is nearest to the lame.
func (h *hinge) withLames(c *carried) *carried {
	w, floats := c.worn, c.piece.Joint == h.joint
	if w.lame == 0 || w.piece.Through <= 0 || !floats && !h.nextTo(w) {
		return c
	}
	up := float64(w.lame) / float64(w.lames) // from the run's lower end; the far end of the lame
	c.most, c.base = w.piece.Through, c.share
	switch far := h.downward(); {
	case floats:
		c.share += (0.5 - (float64(w.lame)-0.5)/float64(w.lames)) * far
	case c.moving && far > 0:
		c.share = 1 - up
	case c.moving:
		c.share = up - 1/float64(w.lames)
	case far > 0:
		c.share = 1 - up + 1/float64(w.lames)
	default:
		c.share = up
	}
	return c
}

// downward is 1 where what moves hangs below the joint, -1 at the neck.
func (h *hinge) downward() float64 {
	if h.joint == "neck" {
		return -1
	}
	return 1
}

// nextTo tells whether this joint is, of those that a lame's segment meets, the
// one nearest to the lame, and the lame nearer to it than the rigid rest of its
// piece.
func (h *hinge) nextTo(w *worn) bool {
	nearest, least := "", math.Inf(1)
	for _, j := range h.joints {
		if w.side != body.Both && j.Side != w.side || beyond[j.Name][0] != w.piece.Segment && remaining[j.Name].segments[0] != w.piece.Segment {
			continue
		}
		if d := geom.Dist(j.Centre, w.middle()); d < least-geom.Coincident {
			nearest, least = j.Name, d
		}
	}
	return nearest == h.joint && (w.rest == nil || geom.Dist(w.middle(), h.centre) < geom.Dist(w.rest.middle(), h.centre))
}
