package booklet

import (
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// speck is how small the triangles along a trimmed border become, mm: what
// they still miss does not show in a drawing (detail).
const speck = 1.5

// border is a panel's seam lines and free edges in turn: the border of the
// foam itself, without allowances.
func border(p *pattern.Panel) []r2.Vec {
	var ring []r2.Vec
	for _, e := range p.Edges {
		if n := len(e.Line); n > 0 {
			ring = append(ring, e.Line[:n-1]...)
		}
	}
	return ring
}

// trimmer cuts a panel's surface down to what is left of it.
type trimmer struct {
	rings [][]r2.Vec // the border, then the holes
	mesh  geom.Mesh
}

// trimmed is the part of a panel's bent surface, in piece axes, that is inside
// its border and outside its holes. Its own border is ragged by about speck;
// there, triangles need not share their corners.
func trimmed(p *pattern.Panel) geom.Mesh {
	t := trimmer{rings: append([][]r2.Vec{border(p)}, p.Holes...)}
	s := &p.Surface
	for _, v := range s.T {
		t.add([3]r2.Vec{s.Flat[v[0]], s.Flat[v[1]], s.Flat[v[2]]}, [3]r3.Vec{s.Bent[v[0]], s.Bent[v[1]], s.Bent[v[2]]})
	}
	return t.mesh
}

// add takes a triangle in if it is foam, and halves it at its longest side if
// only a part of it is.
func (t *trimmer) add(flat [3]r2.Vec, bent [3]r3.Vec) {
	long, at := 0.0, 0
	for k := range 3 {
		if d := geom.Dist(flat[k], flat[(k+1)%3]); d > long {
			long, at = d, k
		}
	}
	if long > speck && t.crosses(flat) {
		a, b, c := at, (at+1)%3, (at+2)%3
		f, v := geom.Lerp(flat[a], flat[b], 0.5), geom.Lerp(bent[a], bent[b], 0.5)
		t.add([3]r2.Vec{flat[a], f, flat[c]}, [3]r3.Vec{bent[a], v, bent[c]})
		t.add([3]r2.Vec{f, flat[b], flat[c]}, [3]r3.Vec{v, bent[b], bent[c]})
		return
	}
	if t.foam(r2.Scale(1.0/3, r2.Add(r2.Add(flat[0], flat[1]), flat[2]))) {
		n := len(t.mesh.V)
		t.mesh.V = append(t.mesh.V, bent[0], bent[1], bent[2])
		t.mesh.T = append(t.mesh.T, [3]int{n, n + 1, n + 2})
	}
}

// foam tells whether a place in the plane is foam.
func (t *trimmer) foam(p r2.Vec) bool {
	for i, r := range t.rings {
		if geom.Inside(r, p) != (i == 0) {
			return false
		}
	}
	return true
}

// crosses tells whether a border runs through the inside of a triangle; along
// its sides does not count.
func (t *trimmer) crosses(tri [3]r2.Vec) bool {
	box := geom.Bounds(tri[:])
	for _, r := range t.rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if max(a.X, b.X) < box.Min.X || min(a.X, b.X) > box.Max.X || max(a.Y, b.Y) < box.Min.Y || min(a.Y, b.Y) > box.Max.Y {
				continue
			}
			for _, part := range geom.ClipLine(a, b, tri[:]) {
				if geom.DistToRing(tri[:], geom.Lerp(part[0], part[1], 0.5)) > geom.Detail {
					return true
				}
			}
		}
	}
	return false
}
