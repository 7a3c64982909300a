package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// findAlike finds parts that the same template cuts, as the facets of a head
// with equal sides are.
func (a *assembly) findAlike() {
	for i := range a.parts {
		for j := range i {
			if a.images[j].of >= 0 {
				continue
			}
			edges, ok := alike(&a.parts[i], &a.parts[j])
			if !ok {
				continue
			}
			if moved, ok := a.movedOnto(j, i, edges); ok {
				a.images[i] = image{of: j, edge: edges, moved: moved}
				break
			}
		}
	}
}

// alike tells whether p lies on q when moved and turned, and which edge of q each
// edge of p then lies on. Parts with holes are not looked at: what is cut out of
// one seldom is cut out of the other.
func alike(p, q *part) ([]int, bool) {
	n := len(p.edges)
	if n != len(q.edges) || len(p.holes) > 0 || len(q.holes) > 0 {
		return nil, false
	}
	for shift := range n {
		if p.liesOn(q, shift) {
			edges := make([]int, n)
			for i := range edges {
				edges[i] = (i + shift) % n
			}
			return edges, true
		}
	}
	return nil, false
}

// movedOnto is how part j is moved in space to lie on part i, whose edges lie on
// those of j as given; false where the two are bent otherwise.
func (a *assembly) movedOnto(j, i int, edges []int) (geom.Frame, bool) {
	p, q := &a.parts[i], &a.parts[j]
	var at, from []r3.Vec
	for k, e := range p.edges {
		f := q.edges[edges[k]]
		for _, t := range []float64{0, 0.25, 0.5, 0.75} {
			at = append(at, a.blanks.panels[p.raw].surf.Lift(geom.At(e.pts, t*geom.Length(e.pts))))
			from = append(from, a.blanks.panels[q.raw].surf.Lift(geom.At(f.pts, t*geom.Length(f.pts))))
		}
	}
	moved := onto(triad(from), triad(at))
	for k := range at {
		if geom.Dist(moved.Point(from[k]), at[k]) > 10*cutAlike {
			return geom.Frame{}, false
		}
	}
	return moved, true
}

// triad is a frame on three of some points: the first, the one farthest from it,
// and the one farthest from the line through both.
func triad(pts []r3.Vec) geom.Frame {
	far, off := 0, 0
	for k, p := range pts {
		if geom.Dist(p, pts[0]) > geom.Dist(pts[far], pts[0])+cutAlike {
			far = k
		}
	}
	x := r3.Unit(r3.Sub(pts[far], pts[0]))
	away := func(k int) float64 { return r3.Norm(r3.Cross(r3.Sub(pts[k], pts[0]), x)) }
	for k := range pts {
		if away(k) > away(off)+cutAlike {
			off = k
		}
	}
	y := r3.Unit(r3.Cross(r3.Cross(x, r3.Sub(pts[off], pts[0])), x))
	return geom.Frame{O: pts[0], X: x, Y: y, Z: r3.Cross(x, y)}
}

// onto is the motion that brings one frame onto another.
func onto(from, to geom.Frame) geom.Frame {
	move := func(d r3.Vec) r3.Vec { return to.Dir(from.LocalDir(d)) }
	return geom.Frame{O: to.Point(from.Local(r3.Vec{})), X: move(r3.Vec{X: 1}), Y: move(r3.Vec{Y: 1}), Z: move(r3.Vec{Z: 1})}
}

// liesOn tells whether edge i of p lies on edge i + shift of q once its first
// edge does.
func (p *part) liesOn(q *part, shift int) bool {
	n := len(p.edges)
	for i, e := range p.edges {
		f := q.edges[(i+shift)%n]
		if e.kind != f.kind || (e.seam >= 0) != (f.seam >= 0) || e.gap != f.gap || math.Abs(geom.Length(e.pts)-geom.Length(f.pts)) > cutAlike {
			return false
		}
	}
	onto := moves(p.edges[0].pts, q.edges[shift].pts)
	for i, e := range p.edges {
		f := q.edges[(i+shift)%n].pts
		for _, t := range []float64{0, 0.25, 0.5, 0.75} {
			at, want := geom.At(e.pts, t*geom.Length(e.pts)), geom.At(f, t*geom.Length(f))
			if geom.Dist(onto(at), want) > cutAlike {
				return false
			}
		}
	}
	return true
}

// moves is the motion that puts the ends of one line on those of another.
func moves(from, to []r2.Vec) func(r2.Vec) r2.Vec {
	a, b := r2.Sub(from[len(from)-1], from[0]), r2.Sub(to[len(to)-1], to[0])
	angle := math.Atan2(b.Y, b.X) - math.Atan2(a.Y, a.X)
	return func(p r2.Vec) r2.Vec {
		return r2.Add(to[0], r2.Rotate(r2.Sub(p, from[0]), angle, r2.Vec{}))
	}
}
