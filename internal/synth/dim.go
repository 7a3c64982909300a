package synth

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
)

// Dims tells for each vertex of a mesh how much of the room's light reaches it
// past the things round it (of which it may be one): the share of rays about
// its normal, weighted by their slope, that run free for reach mm.
func Dims(m geom.Mesh, things *geom.Locator, reach float64) []float64 {
	out := make([]float64, len(m.V))
	rays := spread(40)
	for i, n := range geom.VertexNormals(m) {
		from := r3.Add(m.V[i], r3.Scale(1.5, n))
		var free, all float64
		for _, d := range rays {
			w := r3.Dot(d, n)
			if w <= 0 {
				continue
			}
			all += w
			t, _, hit := things.Hit(from, d)
			if hit && t < reach {
				free += w * math.Sqrt(t/reach)
			} else {
				free += w
			}
		}
		if all > 0 {
			out[i] = free / all
		}
	}
	return out
}

// spread is n directions evenly over the sphere: a golden spiral.
func spread(n int) []r3.Vec {
	out := make([]r3.Vec, n)
	for i := range out {
		y := 1 - (2*float64(i)+1)/float64(n)
		sin, cos := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
		r := math.Sqrt(1 - y*y)
		out[i] = r3.Vec{X: r * cos, Y: y, Z: r * sin}
	}
	return out
}

// Solids splits a mesh into the pieces that hang together, in the order of
// their first vertices.
func Solids(m geom.Mesh) []geom.Mesh {
	root := make([]int, len(m.V))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, t := range m.T {
		for _, v := range t[1:] {
			a, b := find(t[0]), find(v)
			root[max(a, b)] = min(a, b)
		}
	}
	var out []geom.Mesh
	piece, place := map[int]int{}, make([]int, len(m.V))
	for i, v := range m.V {
		k, ok := piece[find(i)]
		if !ok {
			k = len(out)
			piece[find(i)] = k
			out = append(out, geom.Mesh{})
		}
		place[i] = len(out[k].V)
		out[k].V = append(out[k].V, v)
	}
	for _, t := range m.T {
		k := piece[find(t[0])]
		out[k].T = append(out[k].T, [3]int{place[t[0]], place[t[1]], place[t[2]]})
	}
	return out
}

// PartSolids are the closed solids of a form's mesh by part: its skin, and for the
// head, after it, nose, left and right ear.
func PartSolids(f *body.Form) map[*body.Part][]geom.Mesh {
	out := map[*body.Part][]geom.Mesh{}
	solids := Solids(f.Mesh()) // part by part in the order of Parts
	for _, p := range f.Parts() {
		count := 1
		if p.Segment == body.Head {
			count = 4
		}
		out[p], solids = solids[:count], solids[count:]
	}
	return out
}

// Moved is a mesh of a frame in the frame's parent.
func Moved(m geom.Mesh, f geom.Frame) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = f.Point(v)
	}
	return out
}
