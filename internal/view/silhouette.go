package view

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// spot is a place, rounded so that corners of neighbouring triangles that were
// computed apart are one.
type spot [3]int64

func spotOf(p r3.Vec) spot {
	const per = 1e4 // rounding: a ten-thousandth of a millimetre
	return spot{int64(math.Round(p.X * per)), int64(math.Round(p.Y * per)), int64(math.Round(p.Z * per))}
}

// silhouette lists the edges where a mesh turns from the viewer: one of their
// two triangles is seen from outside and the other from inside. Edges at the
// rim of an open mesh are not among them.
func silhouette(m geom.Mesh, eye r3.Vec) [][2]r3.Vec {
	type edge [2]spot
	outside := map[edge]bool{} // by directed edge: its triangle is seen from outside
	for _, t := range m.T {
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		front := r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), eye) > 0
		for k := range 3 {
			outside[edge{spotOf(m.V[t[k]]), spotOf(m.V[t[(k+1)%3]])}] = front
		}
	}
	var out [][2]r3.Vec
	for _, t := range m.T { // in the mesh's order, not the map's
		for k := range 3 {
			a, b := m.V[t[k]], m.V[t[(k+1)%3]]
			other, shared := outside[edge{spotOf(b), spotOf(a)}]
			if shared && !other && outside[edge{spotOf(a), spotOf(b)}] {
				out = append(out, [2]r3.Vec{a, b})
			}
		}
	}
	return out
}
