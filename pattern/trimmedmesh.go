package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Border is the panel's seam lines and free edges in turn: the border of the foam
// itself, without allowances.
func (p *Panel) Border() []r2.Vec {
	var ring []r2.Vec
	for _, e := range p.Edges {
		if n := len(e.Line); n > 0 {
			ring = append(ring, e.Line[:n-1]...)
		}
	}
	return ring
}

// Trimmed is the bent panel as seams and openings have left it: a mesh of the
// neutral surface in piece axes, inside its border and outside its holes. Its
// triangles do not share their corners.
func (p *Panel) Trimmed() geom.Mesh {
	var c trimmer
	for _, r := range append([][]r2.Vec{p.Border()}, p.Holes...) {
		c.rings = append(c.rings, geom.SidesOf(r))
	}
	s := &p.Surface
	c.out = geom.Mesh{V: make([]r3.Vec, 0, 3*len(s.T)), T: make([][3]int, 0, len(s.T))}
	var near [][2]r2.Vec
	for _, t := range s.T {
		flat := corners{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]}
		near = near[:0]
		for _, r := range c.rings {
			near = r.Near(geom.Bounds(flat[:]), near)
		}
		c.add(flat, [3]r3.Vec{s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]}, near)
	}
	return c.out
}

// corners of a triangle in the flat panel, counter-clockwise.
type corners [3]r2.Vec

// trimmer cuts triangles down to what is foam.
type trimmer struct {
	rings []geom.Sides // the border, counter-clockwise, and the holes, clockwise: foam is on the left
	out   geom.Mesh
}

// sliver (detail): a triangle with a corner of the border inside is halved down
// to this; what it still misses does not show.
const sliver = 0.7 // mm

// add takes the foam of a triangle; near are the sides of rings that may run
// through it. One side that runs right through it cuts it exactly; around more
// of them the triangle is halved at its longest side.
func (c *trimmer) add(flat corners, bent [3]r3.Vec, near [][2]r2.Vec) {
	near, through := flat.crossed(near)
	long, k := flat.longest()
	switch {
	case len(near) == 0 || long < sliver:
		if c.foam(r2.Scale(1./3, r2.Add(r2.Add(flat[0], flat[1]), flat[2]))) {
			c.keep(bent[:])
		}
	case len(near) == 1 && through:
		c.keep(leftOf(near[0], flat, bent))
	default:
		a, b, d := k, (k+1)%3, (k+2)%3
		mid, m := geom.Lerp(flat[a], flat[b], 0.5), geom.Lerp(bent[a], bent[b], 0.5)
		c.add(corners{flat[a], mid, flat[d]}, [3]r3.Vec{bent[a], m, bent[d]}, near)
		c.add(corners{mid, flat[b], flat[d]}, [3]r3.Vec{m, bent[b], bent[d]}, near)
	}
}

// keep takes a convex polygon.
func (c *trimmer) keep(ring []r3.Vec) {
	n := len(c.out.V)
	c.out.V = append(c.out.V, ring...)
	for i := 2; i < len(ring); i++ {
		c.out.T = append(c.out.T, [3]int{n, n + i - 1, n + i})
	}
}

// foam tells whether a place in the plane is foam.
func (c *trimmer) foam(p r2.Vec) bool {
	for i, r := range c.rings {
		if r.Inside(p) != (i == 0) {
			return false
		}
	}
	return true
}

func (t corners) longest() (side float64, k int) {
	for i := range 3 {
		if d := geom.Dist(t[i], t[(i+1)%3]); d > side {
			side, k = d, i
		}
	}
	return side, k
}

// crossed are the lines that run through the inside of a triangle, not along its
// sides, and whether all of them run from side to side.
func (t corners) crossed(lines [][2]r2.Vec) (in [][2]r2.Vec, through bool) {
	low, high := r2.Vec{X: min(t[0].X, t[1].X, t[2].X), Y: min(t[0].Y, t[1].Y, t[2].Y)}, r2.Vec{X: max(t[0].X, t[1].X, t[2].X), Y: max(t[0].Y, t[1].Y, t[2].Y)}
	through = true
	for _, l := range lines {
		a, b := l[0], l[1]
		if max(a.X, b.X) < low.X || min(a.X, b.X) > high.X || max(a.Y, b.Y) < low.Y || min(a.Y, b.Y) > high.Y {
			continue
		}
		if from, to := t.within(a, b); from < to {
			in = append(in, l)
			through = through && from > 0 && to < 1
		}
	}
	return in, through
}

// within are the shares of a line between which it is in the triangle, by more
// than a detail; from is not less than to where it is not. A needle is thinner
// than that, and would be kept or left out whole: of it a part of its width counts.
func (t corners) within(a, b r2.Vec) (from, to float64) {
	const part = 0.1
	from, to = 0, 1
	long, _ := t.longest()
	if long == 0 {
		return 0, 0
	}
	by := min(geom.Detail, part*math.Abs(r2.Cross(r2.Sub(t[1], t[0]), r2.Sub(t[2], t[0])))/long)
	for i, p := range t {
		side := r2.Sub(t[(i+1)%3], p)
		l := math.Sqrt(r2.Norm2(side))
		if l == 0 {
			return 0, 0
		}
		da, db := r2.Cross(side, r2.Sub(a, p))/l-by, r2.Cross(side, r2.Sub(b, p))/l-by
		switch {
		case da <= 0 && db <= 0:
			return 0, 0
		case da <= 0:
			from = max(from, da/(da-db))
		case db <= 0:
			to = min(to, da/(da-db))
		}
	}
	return from, to
}

// leftOf is the part of a triangle to the left of a line that runs through it.
func leftOf(line [2]r2.Vec, flat corners, bent [3]r3.Vec) []r3.Vec {
	dir := r2.Sub(line[1], line[0])
	var out []r3.Vec
	for i := range 3 {
		j := (i + 1) % 3
		di, dj := r2.Cross(dir, r2.Sub(flat[i], line[0])), r2.Cross(dir, r2.Sub(flat[j], line[0]))
		if di >= 0 {
			out = append(out, bent[i])
		}
		if di*dj < 0 {
			out = append(out, geom.Lerp(bent[i], bent[j], di/(di-dj)))
		}
	}
	return out
}
