package fit

import (
	"math"

	"tasset/body"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// obstacle is what a part may meet when a joint turns: flesh with what is worn on
// it, or a part of another piece.
type obstacle struct {
	flesh  *body.Part // nil: a piece
	moving bool       // the flesh lies beyond the joint
	other  *carried
	last   int // of a piece: one more than the triangle that was nearest to the last place
}

// turn is how far the obstacle has turned when the joint has by angle.
func (o *obstacle) turn(angle float64) float64 {
	switch {
	case o.flesh == nil:
		return o.other.turn(angle)
	case o.moving:
		return angle
	}
	return 0
}

// half is how far the foam of a piece reaches from its middle.
func (o *obstacle) half() float64 {
	if o.flesh != nil {
		return 0
	}
	return o.other.piece.Thickness / 2
}

// give is how deep foam may press before it counts as contact, mm: flesh gives
// and foam bends (judgement).
func (o *obstacle) give() float64 {
	if o.flesh != nil {
		return 2
	}
	return 0
}

// passage is a part of a piece that a joint takes past an obstacle.
type passage struct {
	hinge    *hinge
	piece    *carried
	obstacle *obstacle
}

// turned is where a place of the part at rest is when the joint has turned, as
// the obstacle sees it.
func (p *passage) turned(at r3.Vec, angle float64) r3.Vec {
	return p.hinge.turned(at, p.piece.turn(angle)-p.obstacle.turn(angle))
}

// depth is how far a place of the part is inside the obstacle at an angle; of
// flesh that folds only what lies past the fold counts. Outside, it is no
// nearer to the obstacle than that below 0.
func (p *passage) depth(at r3.Vec, angle float64) float64 {
	q := p.turned(at, angle)
	o := p.obstacle
	if o.flesh == nil {
		if away := o.other.surface().Away(q); away > o.half()+near {
			return o.half() - away
		}
		return o.half() - o.distance(q)
	}
	in := -o.flesh.Nearer(q, near)
	if in <= -near {
		in = min(in, -o.flesh.Away(q))
	}
	if !p.hinge.folds {
		return in
	}
	return min(in, p.past(q, angle))
}

// near is how near a place must be for its distance to be looked at closely, mm.
const near = 20.0

// past is how far a place lies past the fold, on the side of the flesh.
func (p *passage) past(q r3.Vec, angle float64) float64 {
	fold := r3.NewRotation(angle/2-p.obstacle.turn(angle), p.hinge.axis).Rotate(p.hinge.down)
	past := r3.Dot(r3.Sub(q, p.hinge.centre), fold)
	if !p.obstacle.moving {
		return -past
	}
	return past
}

func (o *obstacle) distance(p r3.Vec) float64 {
	tri, q := o.other.surface().NearestFrom(p, o.last-1)
	o.last = tri + 1
	return math.Sqrt(r3.Norm2(r3.Sub(q, p)))
}

// How fine the angle of a contact is told, and the least step towards it:
// small enough that no place jumps through foam.
var (
	finest    = units.Rad(0.05)
	leastStep = units.Rad(0.25)
)

// step is how far the joint may turn before a place that is free by so much can
// meet the obstacle: nothing moves faster than its lever, and a fold adds half.
func (p *passage) step(lever, free float64) float64 {
	least := leastStep
	if h := p.obstacle.half(); h > 0 {
		least = min(least, h/lever)
	}
	if p.obstacle.flesh != nil && p.hinge.folds {
		lever *= 1.5
	}
	return max(free/lever, least)
}

// lever is how far a place is from the axis of the joint.
func (h *hinge) lever(at r3.Vec) float64 {
	return max(r3.Norm(r3.Cross(r3.Sub(at, h.centre), h.axis)), 1)
}

// first is the angle up to a limit at which a place meets the obstacle. Pieces
// that lie on each other at rest are not met by the movement.
func (p *passage) first(at r3.Vec, limit float64) (angle float64, met bool) {
	give, lever := p.obstacle.give(), p.hinge.lever(at)
	in := p.depth(at, 0)
	if in > give {
		return 0, p.obstacle.flesh != nil
	}
	for free := 0.0; free < limit; {
		next := min(free+p.step(lever, give-in), limit)
		if in = p.depth(at, next); in > give {
			return p.between(at, free, next), true
		}
		free = next
	}
	return 0, false
}

// between halves the stretch from a free angle to one in contact.
func (p *passage) between(at r3.Vec, free, met float64) float64 {
	for met-free > finest {
		if mid := (free + met) / 2; p.depth(at, mid) > p.obstacle.give() {
			met = mid
		} else {
			free = mid
		}
	}
	return met
}

// mayMeet tells whether the part comes near the obstacle at all, by boxes: in
// steps of the turn, with the stretch that a corner moves in half of one.
func (p *passage) mayMeet() bool {
	const steps = 24
	own, o := p.piece.box(), p.obstacle
	var theirs box
	if o.flesh != nil {
		theirs.low, theirs.high = o.flesh.Box()
	} else {
		theirs = o.other.box()
	}
	far := 0.0
	for _, c := range own.corners() {
		far = max(far, p.hinge.lever(c))
	}
	by := far * p.hinge.full / steps / 2
	pts := make([]point, 8)
	for i := range steps + 1 {
		angle := p.hinge.full * float64(i) / steps
		turn := r3.NewRotation(p.piece.turn(angle)-o.turn(angle), p.hinge.axis)
		for k, c := range own.corners() {
			pts[k].at = r3.Add(p.hinge.centre, turn.Rotate(r3.Sub(c, p.hinge.centre)))
		}
		if !boxRound(pts, 0).apart(theirs, by) {
			return true
		}
	}
	return false
}

// contact is where a part meets an obstacle on the way.
type contact struct {
	passage
	angle float64 // of the first contact
	at    r3.Vec  // the place of it on the part, body axes, at rest
	rim   bool    // that place is at an edge
	depth float64 // at the full angle: how far in, or past the other piece's foam
	off   float64 // what to take off the edge so that the full angle is free
	whole bool    // that much is not enough: the foam's panel ends there, or it is too much
	both  bool    // turned to the left and to the right
}

// run takes the part through the turn and gives its first contact; nil if it passes.
func (p *passage) run() *contact {
	if !p.mayMeet() {
		return nil
	}
	c := &contact{passage: *p, angle: math.Inf(1)}
	pts := p.piece.points()
	const stride = 5 // a few all over first, so that the rest need not be followed beyond them
	for from := range stride {
		for i := from; i < len(pts); i += stride {
			c.look(pts[i])
		}
	}
	if math.IsInf(c.angle, 1) {
		return nil
	}
	for _, q := range p.piece.rimNear(c.at) {
		c.look(q)
	}
	return c
}

// look keeps the place if it meets the obstacle before all others.
func (c *contact) look(pt point) {
	if c.obstacle.flesh != nil && pt.spot == nil { // the edge presses in first
		return
	}
	for _, q := range c.piece.thick(pt) {
		if angle, met := c.first(q, min(c.angle, c.hinge.full)); met && angle < c.angle {
			c.angle, c.at, c.rim = angle, q, pt.spot != nil
		}
	}
}
