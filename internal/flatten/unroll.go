package flatten

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Unroll develops the strip triangle by triangle: P starts at the origin and
// the first triangle's side on the far side of Q lies along +x, so that Q is on
// the left. Every edge of the triangles keeps its length to rounding.
func (s Strip) Unroll() Flat {
	space := s.Vertices()
	plane := make([]r2.Vec, len(space))
	a, b := s.T[0][0], s.T[0][1]
	plane[b] = r2.Vec{X: geom.Dist(space[a], space[b])}
	done := make([]bool, len(space))
	done[a], done[b] = true, true
	for _, t := range s.T {
		for k := range 3 {
			if v := t[(k+2)%3]; !done[v] {
				plane[v] = third(space, plane, t[k], t[(k+1)%3], v)
				done[v] = true
			}
		}
	}
	return s.split(plane)
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

// split parts laid vertices into the rails. Where the rails share an end, the
// triangles know only P's.
func (s Strip) split(plane []r2.Vec) Flat {
	m, n := len(s.P), len(s.Q)
	f := Flat{P: plane[:m:m], Q: plane[m:]}
	if geom.Dist(s.P[0], s.Q[0]) <= geom.Coincident {
		f.Q[0] = f.P[0]
	}
	if geom.Dist(s.P[m-1], s.Q[n-1]) <= geom.Coincident {
		f.Q[n-1] = f.P[m-1]
	}
	return f
}
