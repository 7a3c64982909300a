package geom

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mesh is a triangle mesh. Triangles are counter-clockwise seen from outside.
type Mesh struct {
	V []r3.Vec
	T [][3]int
}

// Append adds another mesh's vertices and triangles.
func (m *Mesh) Append(o Mesh) {
	base := len(m.V)
	m.V = append(m.V, o.V...)
	m.T = slices.Grow(m.T, len(o.T))
	for _, t := range o.T {
		m.T = append(m.T, [3]int{t[0] + base, t[1] + base, t[2] + base})
	}
}

// Together is several meshes as one.
func Together(meshes ...Mesh) Mesh {
	var out Mesh
	vertices, triangles := 0, 0
	for _, m := range meshes {
		vertices, triangles = vertices+len(m.V), triangles+len(m.T)
	}
	out.V, out.T = slices.Grow(out.V, vertices), slices.Grow(out.T, triangles)
	for _, m := range meshes {
		out.Append(m)
	}
	return out
}

// MirroredX is the mesh seen in a mirror at x = 0, its triangles still outwards.
func (m Mesh) MirroredX() Mesh {
	out := Mesh{V: make([]r3.Vec, len(m.V)), T: make([][3]int, len(m.T))}
	for i, v := range m.V {
		out.V[i] = r3.Vec{X: -v.X, Y: v.Y, Z: v.Z}
	}
	for i, t := range m.T {
		out.T[i] = [3]int{t[0], t[2], t[1]}
	}
	return out
}
