package view

import (
	"cmp"
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// Joined is a mesh whose triangles share their corners and, but at its rim, their
// sides: what every view of it needs, and takes long where each triangle has corners
// of its own.
func Joined(m geom.Mesh) geom.Mesh {
	s := joined(m)
	out := geom.Mesh{T: make([][3]int, len(s.T))}
	number := make([]int, len(s.V))
	for p := range s.V {
		if len(s.at(int32(p))) > 0 {
			number[p] = len(out.V)
			out.V = append(out.V, s.V[p])
		}
	}
	for i, t := range s.T {
		out.T[i] = [3]int{number[s.places[t[0]]], number[s.places[t[1]]], number[s.places[t[2]]]}
	}
	return out
}

// joined divides triangles where a corner of another lies within one of their
// sides, as where a finer part of a mesh begins, so that every side but those of
// the rim is shared: else the surface would look torn there, and show neither
// silhouette nor one shade.
func joined(m geom.Mesh) *solid {
	s := newSolid(m)
	alone := s.lone()
	on := s.cornersOn(alone)
	if len(on) == 0 {
		return s
	}
	out := &solid{Mesh: geom.Mesh{V: m.V}, places: s.places}
	for i, t := range m.T {
		if cut, ok := on[i]; ok {
			out.T = divided(out.T, t, cut)
		} else {
			out.T = append(out.T, t)
		}
	}
	return out.sorted()
}

// side is a side of a triangle: from its corner k to the next.
type side struct{ tri, k int }

// lone are the sides with no triangle on their other side, in the order of the
// triangles.
func (s *solid) lone() []side {
	var out []side
	for i := range s.T {
		for k := range 3 {
			if from, to := s.side(i, k); from != to && s.across(i, k) < 0 {
				out = append(out, side{i, k})
			}
		}
	}
	return out
}

// cornersOn are the corners of lone sides that lie within others of them, in order
// along each, by triangle.
func (s *solid) cornersOn(alone []side) map[int][3][]int {
	corners, along := s.cornersOf(alone)
	out := map[int][3][]int{}
	for _, l := range alone {
		from, to := s.side(l.tri, l.k)
		a, b := s.V[from], s.V[to]
		low, high := min(along(a), along(b))-onSide, max(along(a), along(b))+onSide
		first, _ := slices.BinarySearchFunc(corners, low, func(n int, low float64) int { return cmp.Compare(along(s.V[n]), low) })
		var on []int
		for _, n := range corners[first:] {
			p := s.V[n]
			if along(p) > high {
				break
			}
			if n != int(from) && n != int(to) && !apart(p.X, a.X, b.X) && !apart(p.Y, a.Y, b.Y) && !apart(p.Z, a.Z, b.Z) && within3(p, a, b) {
				on = append(on, n)
			}
		}
		if len(on) > 0 {
			slices.SortFunc(on, func(i, j int) int { return cmp.Compare(geom.Dist(s.V[i], a), geom.Dist(s.V[j], a)) })
			cut := out[l.tri]
			cut[l.k] = on
			out[l.tri] = cut
		}
	}
	return out
}

// cornersOf are the places at which sides end, a vertex each, sorted along the
// axis in which they lie farthest apart.
func (s *solid) cornersOf(sides []side) (corners []int, along func(r3.Vec) float64) {
	met := make([]bool, len(s.V))
	inf := math.Inf(1)
	low, high := r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for _, l := range sides {
		from, to := s.side(l.tri, l.k)
		for _, n := range [2]int32{from, to} {
			if !met[n] {
				met[n] = true
				corners = append(corners, int(n))
				p := s.V[n]
				low = r3.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Y), Z: min(low.Z, p.Z)}
				high = r3.Vec{X: max(high.X, p.X), Y: max(high.Y, p.Y), Z: max(high.Z, p.Z)}
			}
		}
	}
	along = longest(r3.Sub(high, low))
	slices.SortFunc(corners, func(i, j int) int {
		if c := cmp.Compare(along(s.V[i]), along(s.V[j])); c != 0 {
			return c
		}
		return cmp.Compare(i, j)
	})
	return corners, along
}

// longest is the coordinate along the longest side of a box.
func longest(size r3.Vec) func(r3.Vec) float64 {
	switch {
	case size.X >= size.Y && size.X >= size.Z:
		return func(p r3.Vec) float64 { return p.X }
	case size.Y >= size.Z:
		return func(p r3.Vec) float64 { return p.Y }
	}
	return func(p r3.Vec) float64 { return p.Z }
}

// onSide (rounding) is how far a corner may be off the side that it lies on, mm.
const onSide = 1e-4

// apart tells whether a coordinate lies outside those of a side's ends.
func apart(p, a, b float64) bool { return p < min(a, b)-onSide || p > max(a, b)+onSide }

// within3 tells whether a place lies on a line, clear of its ends.
func within3(p, a, b r3.Vec) bool {
	d := r3.Sub(b, a)
	long := r3.Norm(d)
	t := r3.Dot(r3.Sub(p, a), d) / long
	if t < 2*onSide || t > long-2*onSide {
		return false
	}
	return geom.Dist(p, geom.Lerp(a, b, t/long)) < onSide
}

// divided adds a triangle, cut at the corners that lie on its sides.
func divided(all [][3]int, t [3]int, on [3][]int) [][3]int {
	for k := range 3 {
		if len(on[k]) == 0 {
			continue
		}
		a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
		half := len(on[k]) / 2
		p := on[k][half]
		all = divided(all, [3]int{a, p, c}, [3][]int{on[k][:half], nil, on[(k+2)%3]})
		return divided(all, [3]int{p, b, c}, [3][]int{on[k][half+1:], on[(k+1)%3], nil})
	}
	return append(all, t)
}
