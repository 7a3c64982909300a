package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// cutout is a curve by which a piece is cut: a closed one by which something is
// taken off (an opening as it is seen from one side, or a drawn rim as it is seen
// from within), or an open one that makes a seam.
type cutout struct {
	kind   cutKind
	name   string
	eye    eye
	curve  []r3.Vec // piece axes; what is taken off lies on its left for who looks at the outer face
	region []r2.Vec // what is taken off, in the eye's picture; of a seam just the curve

	bandsOnly bool // leaves lames as they are
}

type cutKind int

const (
	opens  cutKind = iota
	rims           // a drawn rim
	splits         // a drawn seam: nothing is taken off
)

// smoothStep (detail): the longest chord of a smooth drawn curve.
const smoothStep = 1.5

// newCutout makes a cutout of a curve written in the template's coordinates.
func newCutout(name, from string, curve []r2.Vec) cutout {
	e, flip := eyeFrom(from)
	pts := append([]r2.Vec(nil), curve...)
	if flip {
		for i := range pts {
			pts[i].X = -pts[i].X
		}
	}
	return seenFrom(e, name, pts)
}

// seenFrom makes a cutout of a closed curve in an eye's picture.
func seenFrom(e eye, name string, curve []r2.Vec) cutout {
	c := cutout{name: name, eye: e, region: geom.CCW(curve)}
	for _, p := range c.region {
		c.curve = append(c.curve, e.target(p))
	}
	return c
}

// seamFrom makes a seam of an open curve in an eye's picture.
func seamFrom(e eye, name string, line []r2.Vec) cutout {
	c := cutout{kind: splits, name: name, eye: e, region: line}
	for _, p := range line {
		c.curve = append(c.curve, e.target(p))
	}
	return c
}

// reflected is the cutout's mirror image about the piece's x = 0 plane.
func (c cutout) reflected() cutout {
	out := make([]r2.Vec, len(c.region))
	for i, p := range c.region {
		out[i] = r2.Vec{X: -p.X, Y: p.Y}
	}
	if c.kind == splits {
		return seamFrom(c.eye.reflected(), c.name, out)
	}
	return seenFrom(c.eye.reflected(), c.name, out)
}

// contains tells whether a place of the shell is taken off, if the eye sees it.
func (c *cutout) contains(p r3.Vec) bool {
	for _, q := range c.eye.sees(p) {
		if geom.Inside(c.region, q) {
			return true
		}
	}
	return false
}
