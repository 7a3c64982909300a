package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// VertexNormals are the outward unit normals at a mesh's vertices: the sum of the
// normals of the triangles round it, weighted by their angles there, so that
// they do not depend on how a flat part is triangulated. A vertex without
// triangles has the zero vector. Source: Thürmer and Wüthrich, "Computing vertex
// normals from polygonal facets", J. Graphics Tools 3(1), 1998.
func VertexNormals(m Mesh) []r3.Vec {
	out := make([]r3.Vec, len(m.V))
	for _, t := range m.T {
		n, angle := normalAndAngles(m.V[t[0]], m.V[t[1]], m.V[t[2]])
		for k, v := range t {
			out[v] = r3.Add(out[v], r3.Scale(angle[k], n))
		}
	}
	for i, n := range out {
		out[i] = unitOrZero(n)
	}
	return out
}

// Offset moves every vertex along its outward normal n by d(n), without
// changing the triangles. It does not see where parts of the mesh run into
// each other: d must be small against hollows.
func Offset(m Mesh, d func(n r3.Vec) float64) Mesh {
	out := Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, n := range VertexNormals(m) {
		out.V[i] = r3.Add(m.V[i], r3.Scale(d(n), n))
	}
	return out
}

// normalAndAngles are the unit normal of a triangle and the angles at its
// corners, all zero if it has no area.
func normalAndAngles(a, b, c r3.Vec) (n r3.Vec, angle [3]float64) {
	ab, ac, bc := r3.Sub(b, a), r3.Sub(c, a), r3.Sub(c, b)
	n = r3.Cross(ab, ac)
	twice := length(n) // the triangle's area
	if twice == 0 {
		return r3.Vec{}, angle
	}
	angle[0], angle[1] = math.Atan2(twice, r3.Dot(ab, ac)), math.Atan2(twice, -r3.Dot(ab, bc))
	angle[2] = math.Pi - angle[0] - angle[1]
	return r3.Scale(1/twice, n), angle
}

// length is that of a vector. Unlike r3.Norm it does not guard against numbers
// whose squares are none, and takes a fraction of its time.
func length(v r3.Vec) float64 { return math.Sqrt(r3.Norm2(v)) }

// faceNormal is the unit normal of a triangle, zero if it has no area.
func faceNormal(v []r3.Vec, t [3]int) r3.Vec {
	return unitOrZero(r3.Cross(r3.Sub(v[t[1]], v[t[0]]), r3.Sub(v[t[2]], v[t[0]])))
}

func unitOrZero(v r3.Vec) r3.Vec {
	if l := length(v); l > 0 {
		return r3.Scale(1/l, v)
	}
	return r3.Vec{}
}

// angleAt is the angle of a triangle at its corner k.
func angleAt(v []r3.Vec, t [3]int, k int) float64 {
	p := v[t[k]]
	a, b := r3.Sub(v[t[(k+1)%3]], p), r3.Sub(v[t[(k+2)%3]], p)
	return math.Atan2(length(r3.Cross(a, b)), r3.Dot(a, b))
}
