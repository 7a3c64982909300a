package fit

import (
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// obstacle is what a piece may meet on the other side of a joint: flesh with
// what is worn on it, or another piece.
type obstacle struct {
	part  *body.Part // nil: a piece
	other worn
	mesh  *geom.Locator // of the other piece's neutral surface
}

// depth is how far a point (body axes, at rest) is inside; 0 or less outside.
func (o *obstacle) depth(p r3.Vec) float64 {
	if o.part != nil {
		return -o.part.Nearer(p, 0)
	}
	half := o.other.piece.Thickness / 2
	if o.mesh.Away(p) > half {
		return -1
	}
	return half - o.distance(p)
}

func (o *obstacle) distance(p r3.Vec) float64 {
	_, q := o.mesh.Nearest(p)
	return r3.Norm(r3.Sub(p, q))
}

// give is how deep foam may press before it counts as contact, mm: flesh gives
// and foam bends (judgement).
func (o *obstacle) give() float64 {
	if o.part != nil {
		return 2
	}
	return 0
}

// step is the angle of the coarse scan: small enough that no point jumps through
// another piece's thickness.
func (p *passage) step(at r3.Vec) float64 {
	if p.obstacle.part != nil {
		return units.Rad(5)
	}
	const share = 0.7 // of the thickness
	lever := r3.Norm(r3.Cross(r3.Sub(at, p.hinge.centre), p.hinge.axis))
	return min(share*p.obstacle.other.piece.Thickness/max(lever, 1), units.Rad(5))
}

// passage is a piece taken through a turn past an obstacle.
type passage struct {
	hinge    *hinge
	piece    worn
	sense    float64 // 1: the piece is on the moving side, -1: the obstacle is
	obstacle *obstacle
}

// contact is where a piece meets an obstacle on the way.
type contact struct {
	passage
	angle float64 // of the first contact
	at    r3.Vec  // the place of it on the piece, body axes, at rest
	depth float64 // at the full angle: how far in, or past the other piece's foam
	off   float64 // what to take off the rim so that the full angle is free
	whole bool    // that much is not enough: the foam's panel ends there, or it is too much
	both  bool    // turned to the left and to the right
}

// depth is how far a point of the piece is inside the obstacle at an angle. Of
// folded flesh only what lies past the fold counts.
func (p *passage) depth(at r3.Vec, angle float64) float64 {
	q := p.hinge.turned(at, p.sense*angle)
	if p.obstacle.part == nil || !p.hinge.folds {
		return p.obstacle.depth(q)
	}
	square := r3.NewRotation(p.sense*angle/2, p.hinge.axis).Rotate(p.hinge.down)
	past := -p.sense * r3.Dot(r3.Sub(q, p.hinge.centre), square)
	if past <= 0 {
		return past
	}
	return min(past, p.obstacle.depth(q))
}

// first is the angle at which a point meets the obstacle, exact where it is
// before best. Pieces that lie on each other at rest are not met by the movement.
func (p *passage) first(at r3.Vec, best float64) (angle float64, met bool) {
	give := p.obstacle.give()
	if p.depth(at, 0) > give {
		return 0, p.obstacle.part != nil
	}
	free, step := 0.0, p.step(at)
	for free < p.hinge.full {
		next := min(free+step, p.hinge.full)
		if p.depth(at, next) > give {
			if free < best {
				next = p.between(at, free, next)
			}
			return next, true
		}
		free = next
	}
	return 0, false
}

// between halves the stretch from a free angle to one in contact, to a twentieth
// of a degree.
func (p *passage) between(at r3.Vec, free, met float64) float64 {
	for met-free > units.Rad(0.05) {
		if mid := (free + met) / 2; p.depth(at, mid) > p.obstacle.give() {
			met = mid
		} else {
			free = mid
		}
	}
	return met
}

// How far in from the rim foam is followed, and in what steps, mm.
const (
	inmost = 100.0
	inStep = 2.0
)

// run takes the rim through the turn. Where it meets the obstacle, the foam
// behind it is followed in until it passes freely.
func (p *passage) run() (contact, bool) {
	c := contact{passage: *p, angle: math.Inf(1)}
	freed, ended := 0.0, 0.0 // how far in foam came free, and how far in it did not before its panel ended
	for _, s := range p.piece.rimAt(p.hinge.centre) {
		for in := 0.0; ; in += inStep {
			at, normal, ok := p.piece.foam(s, in)
			if !ok || in > inmost {
				ended = max(ended, in)
				break
			}
			if !c.take(at, normal) {
				freed = max(freed, in)
				break
			}
			c.off = max(c.off, in+inStep)
		}
	}
	c.whole = ended > freed+apart // beside a panel's slanting end, the next panel's foam came free
	return c, c.off > 0
}

// take tells whether the foam at a place meets the obstacle, and keeps the
// first and the deepest such place.
func (c *contact) take(at, normal r3.Vec) bool {
	any := false
	for _, q := range c.piece.thick(at, normal) {
		angle, met := c.first(q, c.angle)
		if !met {
			continue
		}
		any = true
		if angle < c.angle {
			c.angle, c.at = angle, q
		}
		if c.obstacle.part != nil {
			c.depth = max(c.depth, c.passage.depth(q, c.hinge.full))
		} else {
			c.depth = max(c.depth, c.obstacle.distance(c.hinge.turned(q, c.sense*c.hinge.full))-c.obstacle.other.piece.Thickness/2)
		}
	}
	return any
}
