package fit

import "math"

// How far in from an edge foam is followed, and in what steps, mm.
const (
	inmost = 100.0
	inStep = 2.0
)

// cleared is the contact with what to take off so that the part passes; nil of nil.
func (c *contact) cleared() *contact {
	if c != nil {
		c.takeOff()
	}
	return c
}

// takeOff follows the foam in from the edge wherever it meets the obstacle
// before the full turn, until it passes freely.
func (c *contact) takeOff() {
	freed, ended := 0.0, 0.0 // how far in foam came free, and how far in it did not before its panel ended
	for _, pt := range append(c.piece.rimNear(c.at), c.piece.points()...) {
		if pt.spot == nil || !c.takes(pt) {
			continue
		}
		in, free := c.freeFrom(pt.spot)
		c.off = max(c.off, in)
		if free {
			freed = max(freed, in)
		} else {
			ended = max(ended, in)
		}
	}
	c.whole = ended > freed+apart // beside a panel's slanting end, the next panel's foam came free
}

// freeFrom is how far in from the edge the foam passes freely; false where it
// does not before its panel ends.
func (c *contact) freeFrom(s *spot) (in float64, free bool) {
	const wide = 8 * inStep
	met := 0.0
	for in = wide; ; in += wide {
		at, normal, ok := c.piece.foam(s, in)
		if ok && in <= inmost && c.takes(point{at: at, normal: normal}) {
			met = in
			continue
		}
		for in = met + inStep; in < met+wide; in += inStep {
			at, normal, ok := c.piece.foam(s, in)
			if !ok || in > inmost {
				return in, false
			}
			if !c.takes(point{at: at, normal: normal}) {
				break
			}
		}
		return in, true
	}
}

// takes tells whether the foam at a place meets the obstacle on the way, and
// keeps the deepest such place.
func (c *contact) takes(pt point) bool {
	any := false
	for _, q := range c.piece.thick(pt) {
		if _, met := c.first(q, c.hinge.full); !met {
			continue
		}
		any = true
		in := c.passage.depth(q, c.hinge.full)
		if c.obstacle.flesh == nil {
			in = c.obstacle.distance(c.turned(q, c.hinge.full)) - c.obstacle.half()
		}
		c.depth = math.Max(c.depth, in)
	}
	return any
}
