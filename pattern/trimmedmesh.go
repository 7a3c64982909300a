package pattern

import (
	"math"
	"slices"

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
		flat := []r2.Vec{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]}
		near = near[:0]
		for _, r := range c.rings {
			near = r.Near(geom.Bounds(flat), near)
		}
		c.add(facet{flat, []r3.Vec{s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]}}, near)
	}
	return c.out
}

// facet is a triangle of a panel or a convex part of one: its corners in the plane,
// counter-clockwise, and on the bent surface.
type facet struct {
	flat []r2.Vec
	bent []r3.Vec
}

// trimmer cuts triangles down to what is foam.
type trimmer struct {
	rings []geom.Sides // the border, counter-clockwise, and the holes, clockwise: foam is on the left
	out   geom.Mesh
}

// add takes the foam of a facet; near are the sides of rings that may run through
// it. It is cut along them, one after the other, until none runs through a part.
func (c *trimmer) add(f facet, near [][2]r2.Vec) {
	if near = f.crossed(near); len(near) == 0 {
		if c.foam(f.middle()) {
			c.keep(f.bent)
		}
		return
	}
	half := len(near) / 2 // a curve is cut in its middle first
	line := near[half]
	rest := slices.Delete(near, half, half+1)
	left, right := f.cut(line)
	c.add(left, rest)
	c.add(right, rest)
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

// middle is a place inside.
func (f facet) middle() r2.Vec {
	var sum r2.Vec
	for _, p := range f.flat {
		sum = r2.Add(sum, p)
	}
	return r2.Scale(1/float64(len(f.flat)), sum)
}

// crossed are the lines that run through the inside of a facet, not along its sides.
func (f facet) crossed(lines [][2]r2.Vec) (in [][2]r2.Vec) {
	if len(lines) == 0 {
		return nil
	}
	box, by := geom.Bounds(f.flat), f.margin()
	if by == 0 {
		return nil
	}
	for _, l := range lines {
		a, b := l[0], l[1]
		if max(a.X, b.X) < box.Min.X || min(a.X, b.X) > box.Max.X || max(a.Y, b.Y) < box.Min.Y || min(a.Y, b.Y) > box.Max.Y {
			continue
		}
		if f.within(a, b, by) {
			in = append(in, l)
		}
	}
	return in
}

// margin is how far inside a line must run to count: by a detail. A needle is thinner
// than that, and would be kept or left out whole: of it a part of its width counts.
func (f facet) margin() float64 {
	const part = 0.1
	long := 0.0
	for i, p := range f.flat {
		long = max(long, r2.Norm2(r2.Sub(f.flat[(i+1)%len(f.flat)], p)))
	}
	if long == 0 {
		return 0
	}
	return min(geom.Detail, part*2*math.Abs(geom.Area(f.flat))/math.Sqrt(long))
}

// within tells whether a line runs inside a facet by more than a margin.
func (f facet) within(a, b r2.Vec, by float64) bool {
	from, to := 0.0, 1.0
	for i, p := range f.flat {
		side := r2.Sub(f.flat[(i+1)%len(f.flat)], p)
		l := math.Sqrt(r2.Norm2(side))
		if l == 0 {
			continue
		}
		da, db := r2.Cross(side, r2.Sub(a, p))/l-by, r2.Cross(side, r2.Sub(b, p))/l-by
		switch {
		case da <= 0 && db <= 0:
			return false
		case da <= 0:
			from = max(from, da/(da-db))
		case db <= 0:
			to = min(to, da/(da-db))
		}
	}
	return from < to
}

// cut are the parts of a facet to the left and the right of a line.
func (f facet) cut(line [2]r2.Vec) (left, right facet) {
	dir := r2.Sub(line[1], line[0])
	add := func(to *facet, p r2.Vec, b r3.Vec) { to.flat, to.bent = append(to.flat, p), append(to.bent, b) }
	for i, p := range f.flat {
		j := (i + 1) % len(f.flat)
		di, dj := r2.Cross(dir, r2.Sub(p, line[0])), r2.Cross(dir, r2.Sub(f.flat[j], line[0]))
		if di >= 0 {
			add(&left, p, f.bent[i])
		}
		if di <= 0 {
			add(&right, p, f.bent[i])
		}
		if di*dj < 0 {
			at := di / (di - dj)
			q, b := geom.Lerp(p, f.flat[j], at), geom.Lerp(f.bent[i], f.bent[j], at)
			add(&left, q, b)
			add(&right, q, b)
		}
	}
	return left, right
}
