package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// findAlike finds parts that the same template cuts, as the facets of a head
// with equal sides are.
func (a *assembly) findAlike() {
	for i := range a.parts {
		for j := range i {
			if a.images[j].of >= 0 {
				continue
			}
			if edges, ok := alike(&a.parts[i], &a.parts[j]); ok {
				a.images[i] = image{of: j, edge: edges}
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
