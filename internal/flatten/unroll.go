package flatten

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Unroll develops the strip triangle by triangle. The first edge of its first
// triangle (P's, in a strip of Triangulate) starts at the origin and runs along
// +x. Every edge of the triangles keeps its length to rounding.
func (s Strip) Unroll() Flat {
	space := s.Vertices()
	plane := make([]r2.Vec, len(space))
	done := make([]bool, len(space))
	lay := func(v int, at r2.Vec) {
		for _, w := range []int{v, s.twin(v)} {
			plane[w], done[w] = at, true
		}
	}
	a, b := s.T[0][0], s.T[0][1]
	lay(a, r2.Vec{})
	lay(b, r2.Vec{X: geom.Dist(space[a], space[b])})
	for _, t := range s.T {
		for k := range 3 {
			if v := t[(k+2)%3]; !done[v] {
				lay(v, third(space, plane, t[k], t[(k+1)%3], v))
			}
		}
	}
	m := len(s.P)
	return Flat{P: plane[:m:m], Q: plane[m:]}
}

// twin is the vertex of the other rail that is the same point as v, where the
// rails share an end, and else v.
func (s Strip) twin(v int) int {
	m, n := len(s.P), len(s.Q)
	for _, pair := range [][2]int{{0, m}, {m - 1, m + n - 1}} {
		if (v == pair[0] || v == pair[1]) && geom.Dist(s.P[pair[0]], s.Q[pair[1]-m]) <= geom.Coincident {
			return pair[0] + pair[1] - v
		}
	}
	return v
}

// third is where vertex c of triangle abc comes to lie, to the left of the laid
// edge ab. Taking its foot and height from dot and cross products, and not from
// squared lengths, loses nothing in slender triangles.
func third(space []r3.Vec, plane []r2.Vec, a, b, c int) r2.Vec {
	ab, ac := r3.Sub(space[b], space[a]), r3.Sub(space[c], space[a])
	l2 := r3.Norm2(ab)
	along, up := r3.Dot(ab, ac)/l2, r3.Norm(r3.Cross(ab, ac))/l2
	d := r2.Sub(plane[b], plane[a])
	left := r2.Vec{X: -d.Y, Y: d.X}
	return r2.Add(plane[a], r2.Add(r2.Scale(along, d), r2.Scale(up, left)))
}
