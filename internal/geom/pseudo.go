package geom

import "gonum.org/v1/gonum/spatial/r3"

// pseudo tells inside from outside at faces, edges and vertices of a mesh. Of the
// normals that it needs few are ever asked for, so it only knows the triangles
// round each vertex. Source: Bærentzen and Aanæs, "Signed distance computation
// using the angle weighted pseudonormal", IEEE TVCG 11(3), 2005.
type pseudo struct {
	m     Mesh
	first []int // round[first[v]:first[v+1]] are the triangles round vertex v, by rising index
	round []int
}

func newPseudo(m Mesh) pseudo {
	p := pseudo{m: m, first: make([]int, len(m.V)+1), round: make([]int, 3*len(m.T))}
	for _, t := range m.T {
		for _, v := range t {
			p.first[v]++
		}
	}
	end := 0
	for v, n := range p.first {
		end += n
		p.first[v] = end
	}
	for i := len(m.T) - 1; i >= 0; i-- { // each list is filled from its end
		for _, v := range m.T[i] {
			p.first[v]--
			p.round[p.first[v]] = i
		}
	}
	return p
}

// normalAt is the pseudonormal at a point of triangle t. Which corner, edge or
// face the point lies on comes of its weights, to rounding.
func (p pseudo) normalAt(t int, q r3.Vec) r3.Vec {
	c := p.m.T[t]
	w := Barycentric(q, p.m.V[c[0]], p.m.V[c[1]], p.m.V[c[2]])
	const none = 1e-9 // rounding
	for k := range 3 {
		if w[(k+1)%3] < none && w[(k+2)%3] < none {
			return p.atVertex(c[k])
		}
	}
	for k := range 3 {
		if w[k] < none {
			return p.onEdge(c[(k+1)%3], c[(k+2)%3])
		}
	}
	return faceNormal(p.m.V, c)
}

// atVertex is the sum of the normals round a vertex, weighted by their angles.
func (p pseudo) atVertex(v int) r3.Vec {
	var sum r3.Vec
	for _, i := range p.round[p.first[v]:p.first[v+1]] {
		for k, corner := range p.m.T[i] {
			if corner == v {
				sum = r3.Add(sum, r3.Scale(angleAt(p.m.V, p.m.T[i], k), faceNormal(p.m.V, p.m.T[i])))
			}
		}
	}
	return sum
}

// onEdge is the sum of the normals on either side of edge ab.
func (p pseudo) onEdge(a, b int) r3.Vec {
	var sum r3.Vec
	for _, i := range p.round[p.first[a]:p.first[a+1]] {
		if t := p.m.T[i]; t[0] == b || t[1] == b || t[2] == b {
			sum = r3.Add(sum, faceNormal(p.m.V, t))
		}
	}
	return sum
}
