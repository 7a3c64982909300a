package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// slabOf is the part of a mesh between two values of x, open where it was cut.
func slabOf(m geom.Mesh, low, high float64) geom.Mesh {
	m = halfOf(m, r3.Vec{X: 1}, low)
	return halfOf(m, r3.Vec{X: -1}, -high)
}

// halfOf is the part of a mesh that lies farther along a direction than a
// distance, open where it was cut.
func halfOf(m geom.Mesh, dir r3.Vec, from float64) geom.Mesh {
	out := geom.Mesh{V: append([]r3.Vec(nil), m.V...)}
	height := func(i int) float64 { return r3.Dot(dir, out.V[i]) - from }
	between := map[[2]int]int{} // one point on each edge that is cut
	cut := func(a, b int) int {
		if a > b {
			a, b = b, a
		}
		v, ok := between[[2]int{a, b}]
		if !ok {
			v = len(out.V)
			ha, hb := height(a), height(b)
			out.V = append(out.V, geom.Lerp(out.V[a], out.V[b], ha/(ha-hb)))
			between[[2]int{a, b}] = v
		}
		return v
	}
	for _, t := range m.T {
		var kept []int
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			in, next := height(a) >= 0, height(b) >= 0
			if in {
				kept = append(kept, a)
			}
			if in != next {
				kept = append(kept, cut(a, b))
			}
		}
		for k := 2; k < len(kept); k++ {
			out.T = append(out.T, [3]int{kept[0], kept[k-1], kept[k]})
		}
	}
	return compact(out)
}

// compact leaves out the vertices that no triangle has.
func compact(m geom.Mesh) geom.Mesh {
	out := geom.Mesh{T: make([][3]int, len(m.T))}
	number := make([]int, len(m.V)) // from 1
	for i, t := range m.T {
		for k, v := range t {
			if number[v] == 0 {
				out.V = append(out.V, m.V[v])
				number[v] = len(out.V)
			}
			out.T[i][k] = number[v] - 1
		}
	}
	return out
}

// turnedInside runs a mesh's triangles the other way round.
func turnedInside(m geom.Mesh) geom.Mesh {
	out := geom.Mesh{V: m.V, T: make([][3]int, len(m.T))}
	for i, t := range m.T {
		out.T[i] = [3]int{t[0], t[2], t[1]}
	}
	return out
}
