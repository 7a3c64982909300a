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

// welded are the numbers of a mesh's vertices, the same for those in one place.
func welded(m geom.Mesh) []int {
	first := make(map[spot]int, len(m.V))
	ids := make([]int, len(m.V))
	for i, v := range m.V {
		s := spotOf(v)
		id, met := first[s]
		if !met {
			id = i
			first[s] = i
		}
		ids[i] = id
	}
	return ids
}

// shared is an edge of a mesh, in the direction of one of its triangles, and the
// triangle on its other side.
type shared struct {
	a, b        int // vertices
	tri, across int
}

// sharedEdges lists every edge with a triangle on either side, once for each of
// them. Edges at the rim of an open mesh are not among them.
func sharedEdges(m geom.Mesh) []shared {
	ids := welded(m)
	type edge [2]int32
	of := make(map[edge]int32, 3*len(m.T)) // the triangle that has it in this direction
	at := func(t [3]int, k int) (a, b int32) { return int32(ids[t[k]]), int32(ids[t[(k+1)%3]]) }
	for i, t := range m.T {
		for k := range 3 {
			a, b := at(t, k)
			of[edge{a, b}] = int32(i)
		}
	}
	var out []shared
	for i, t := range m.T {
		for k := range 3 {
			a, b := at(t, k)
			if across, ok := of[edge{b, a}]; ok {
				out = append(out, shared{t[k], t[(k+1)%3], i, int(across)})
			}
		}
	}
	return out
}

// silhouette lists the edges where a mesh turns from the viewer: one of their
// two triangles is seen from outside and the other from inside.
func silhouette(m geom.Mesh, edges []shared, eye r3.Vec) [][2]r3.Vec {
	outside := make([]bool, len(m.T))
	for i, t := range m.T {
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		outside[i] = r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), eye) > 0
	}
	var out [][2]r3.Vec
	for _, e := range edges {
		if outside[e.tri] && !outside[e.across] {
			out = append(out, [2]r3.Vec{m.V[e.a], m.V[e.b]})
		}
	}
	return out
}
