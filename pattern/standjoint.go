package pattern

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// limbOf are, for each joint, the parts whose axes are the limb's there: of a
// joint with the trunk or the foot, only the limb's own.
var limbOf = map[string][]body.Segment{
	"shoulder": {body.UpperArm},
	"elbow":    {body.UpperArm, body.Forearm},
	"wrist":    {body.Forearm, body.Hand},
	"hip":      {body.Thigh},
	"knee":     {body.Thigh, body.Shank},
	"ankle":    {body.Shank},
	"neck":     {body.Neck},
}

// pointsOut is the way that an axis points out of a joint of the left limb, in
// the limb's own axes, and whether the frame's +x is then the limb's outer side
// (else its front).
var pointsOut = map[string]struct {
	dir   r3.Vec
	outer bool
}{
	"shoulder": {r3.Vec{X: 1, Y: 1}, false},
	"elbow":    {r3.Vec{Z: -1}, true},
	"wrist":    {r3.Vec{X: 1}, false},
	"hip":      {r3.Vec{X: 1}, false},
	"knee":     {r3.Vec{Z: 1}, true},
	"ankle":    {r3.Vec{Z: 1}, true},
}

// onJoint stands at a joint, round the parts that meet there.
func onJoint(f template.Frame, form *body.Form, side body.Side) (*stand, error) {
	if !f.Paired() {
		side = body.Both
	}
	joint, ok := form.Joint(f.Joint, side)
	if !ok {
		return nil, fmt.Errorf("the template stands at the joint %q, which the body form does not have", f.Joint)
	}
	s := &stand{segment: f.Segment, sided: f.Paired(), levels: map[string]float64{}}
	if s.segment == "" {
		s.floats = f.Joint
	}
	for _, seg := range f.JointParts() {
		sideOf := side
		if !limb(seg) {
			sideOf = body.Both
		}
		part, ok := form.Part(seg, sideOf)
		if !ok {
			return nil, fmt.Errorf("the template stands at the %s, and the body form has no %s", f.Joint, seg)
		}
		s.parts = append(s.parts, part)
	}
	up := s.limbAxes(f.Joint, joint.Centre)
	s.frame, s.mirrored = up, side == body.Right
	if f.Axis == "out" {
		out, ok := pointsOut[f.Joint]
		if !ok {
			return nil, fmt.Errorf("the axis points out of the %s, where it can only go up; write axis: up", f.Joint)
		}
		s.outOf(up, out.dir, out.outer, side)
		s.gather()
		return s, nil
	}
	s.stations()
	s.gatherNear(f.Joint)
	return s, nil
}

// limbAxes has y up the limb, as the mean of the parts that meet, z forward,
// and x to the wearer's left.
func (s *stand) limbAxes(joint string, centre r3.Vec) geom.Frame {
	var y, z r3.Vec
	for _, part := range s.parts {
		for _, seg := range limbOf[joint] {
			if part.Segment == seg {
				y, z = r3.Add(y, part.Frame.Y), r3.Add(z, part.Frame.Z)
			}
		}
	}
	y = r3.Unit(y)
	z = r3.Unit(r3.Sub(z, r3.Scale(r3.Dot(z, y), y)))
	return geom.Frame{O: centre, X: r3.Cross(y, z), Y: y, Z: z}
}

// outOf turns the stand so that y points out of the joint and z up the limb.
// The right limb is the left one's mirror image.
func (s *stand) outOf(up geom.Frame, dir r3.Vec, outer bool, side body.Side) {
	sign := 1.0
	if side == body.Right {
		sign = -1
	}
	dir.X *= sign
	y := up.Dir(r3.Unit(dir))
	z := r3.Unit(r3.Sub(up.Y, r3.Scale(r3.Dot(up.Y, y), y)))
	s.frame = geom.Frame{O: up.O, X: r3.Cross(y, z), Y: y, Z: z}
	want := up.Z
	if outer {
		want = r3.Scale(sign, up.X)
	}
	s.mirrored = r3.Dot(s.frame.X, want) < 0
	s.out = true
}

// stations are levels of this stand: where the parts' own lie along its axis.
// Of two with one name, that of the part farther from the trunk stands.
func (s *stand) stations() {
	s.low = math.Inf(1)
	for _, part := range s.parts {
		for _, at := range part.Stations {
			s.levels[body.Name(at.Name).Ident()] = s.frame.Local(part.Frame.Point(part.Centre(at.Level))).Y
		}
		low, _ := part.Range()
		s.low = min(s.low, s.frame.Local(part.Frame.Point(part.Centre(low))).Y)
	}
}

// besideLimb is how far inwards of its axis the trunk counts as body for a
// piece on a limb, in the limb's breadths (common practice, no source: a
// shoulder's lames do not reach farther over the chest).
const besideLimb = 1.5

// besideNeck is how far beyond the neck's own breadth the shoulders count as
// body for a piece round the neck, mm (common practice, no source).
const besideNeck = 30.0

// gatherNear makes what the piece goes round of the parts that meet. The trunk
// counts only where it is near the limb's axis, or round the neck within a
// little more than its breadth.
func (s *stand) gatherNear(joint string) {
	for _, part := range s.parts {
		m := geom.Mesh{V: append([]r3.Vec(nil), part.Worn().V...), T: part.Worn().T}
		for i, v := range m.V {
			if m.V[i] = s.frame.Local(part.Frame.Point(v)); s.mirrored {
				m.V[i].X = -m.V[i].X
			}
		}
		if part.Segment == body.Torso {
			low, high := s.across(joint)
			m, s.beside = slabOf(m, low, high), true
		}
		if s.mirrored {
			m = turnedInside(m)
		}
		s.around.Append(m)
	}
}

// across is between which x the trunk counts as near.
func (s *stand) across(joint string) (low, high float64) {
	part := s.parts[len(s.parts)-1]
	if joint == "neck" {
		part = s.parts[1]
	}
	_, top := part.Range()
	r := part.Section(top).Breadth
	for _, at := range part.Stations {
		r = max(r, part.Section(at.Level).Breadth)
	}
	if joint == "neck" {
		return -r/2 - besideNeck, r/2 + besideNeck
	}
	return -besideLimb * r, math.Inf(1)
}
