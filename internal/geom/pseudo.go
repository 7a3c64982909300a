package geom

import "gonum.org/v1/gonum/spatial/r3"

// pseudo holds what tells inside from outside at faces, edges and vertices of
// a mesh. Source: Bærentzen and Aanæs, "Signed distance computation using the
// angle weighted pseudonormal", IEEE TVCG 11(3), 2005.
type pseudo struct {
	face, vertex []r3.Vec
	edge         map[[2]int]r3.Vec // looked up only, never walked
}

func newPseudo(m Mesh) pseudo {
	p := pseudo{face: make([]r3.Vec, len(m.T)), vertex: VertexNormals(m), edge: make(map[[2]int]r3.Vec, 3*len(m.T)/2)}
	for i, t := range m.T {
		p.face[i] = faceNormal(m.V, t)
		for k := range 3 {
			e := edgeKey(t[k], t[(k+1)%3])
			p.edge[e] = r3.Add(p.edge[e], p.face[i])
		}
	}
	return p
}

func edgeKey(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// normalAt is the pseudonormal at a point of triangle t. Which corner, edge or
// face the point lies on comes of its weights, to rounding.
func (p pseudo) normalAt(m Mesh, t int, q r3.Vec) r3.Vec {
	c := m.T[t]
	w := Barycentric(q, m.V[c[0]], m.V[c[1]], m.V[c[2]])
	const none = 1e-9 // rounding
	for k := range 3 {
		i, j := (k+1)%3, (k+2)%3
		if w[i] < none && w[j] < none {
			return p.vertex[c[k]]
		}
	}
	for k := range 3 {
		if w[k] < none {
			return p.edge[edgeKey(c[(k+1)%3], c[(k+2)%3])]
		}
	}
	return p.face[t]
}
