package view

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// silhouette lists the edges where a mesh turns from the viewer: one of their
// two triangles is seen from outside and the other from inside.
func (s *solid) silhouette(eye r3.Vec) [][2]r3.Vec {
	outside := make([]bool, len(s.T))
	for i, t := range s.T {
		a, b, c := s.V[t[0]], s.V[t[1]], s.V[t[2]]
		outside[i] = r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), eye) > 0
	}
	var out [][2]r3.Vec
	for i, t := range s.T {
		for k := range t {
			if !outside[i] || !s.turnsAt(i, k, outside) {
				continue
			}
			out = append(out, [2]r3.Vec{s.V[t[k]], s.V[t[(k+1)%3]]})
		}
	}
	return out
}

// turnsAt tells whether there is a triangle across a side that is seen from inside.
func (s *solid) turnsAt(tri, k int, outside []bool) bool {
	other := s.across(tri, k)
	return other >= 0 && !outside[other]
}
