package fit

import (
	"math"

	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bent takes a piece past another one that stands still, turned about an axis
// through the origin by up to full: the angle of the first contact, and what to
// take off the piece's rim.
func Bent(moving, still *pattern.Piece, axis r3.Vec, full float64) (angle, off float64, met bool) {
	h := &hinge{axis: axis, full: full}
	turned := passage{hinge: h, piece: worn{piece: moving}, sense: 1, obstacle: &obstacle{other: worn{piece: still}}}
	turned.obstacle.mesh = geom.NewLocator(turned.obstacle.other.mesh())
	c, met := turned.run()
	return c.angle, math.Max(c.off, 0), met
}
