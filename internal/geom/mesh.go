package geom

import "gonum.org/v1/gonum/spatial/r3"

// Mesh is a triangle mesh. Triangles are counter-clockwise seen from outside.
type Mesh struct {
	V []r3.Vec
	T [][3]int
}

// Append adds another mesh's vertices and triangles.
func (m *Mesh) Append(o Mesh) {
	base := len(m.V)
	m.V = append(m.V, o.V...)
	for _, t := range o.T {
		m.T = append(m.T, [3]int{t[0] + base, t[1] + base, t[2] + base})
	}
}
