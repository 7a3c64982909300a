package view

import (
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// joined divides triangles where a corner of another lies within one of their
// sides, as where a finer part of a mesh begins, so that every side but those of
// the rim is shared: else the surface would look torn there, and show neither
// silhouette nor one shade.
func joined(m geom.Mesh) geom.Mesh {
	ids := welded(m)
	alone := unshared(m, ids)
	if len(alone) == 0 {
		return m
	}
	on := cornersOn(m, alone)
	out := geom.Mesh{V: m.V}
	for i, t := range m.T {
		out.T = divided(out.T, t, [3][]int{on[side{i, 0}], on[side{i, 1}], on[side{i, 2}]})
	}
	return out
}

// side is a side of a triangle: from its corner k to the next.
type side struct{ tri, k int }

// lone is a side with no triangle on its other side, and its ends.
type lone struct {
	side
	from, to int
}

// unshared are the lone sides, in the order of the triangles.
func unshared(m geom.Mesh, ids []int) []lone {
	met := make(map[[2]int]bool, 3*len(m.T))
	for _, t := range m.T {
		for k := range 3 {
			met[[2]int{ids[t[k]], ids[t[(k+1)%3]]}] = true
		}
	}
	var out []lone
	for i, t := range m.T {
		for k := range 3 {
			if a, b := t[k], t[(k+1)%3]; ids[a] != ids[b] && !met[[2]int{ids[b], ids[a]}] {
				out = append(out, lone{side{i, k}, a, b})
			}
		}
	}
	return out
}

// cornersOn are the corners of unshared sides that lie within others of them, in
// order along each.
func cornersOn(m geom.Mesh, alone []lone) map[side][]int {
	corners := make([]int, 0, len(alone))
	seen := make(map[spot]bool, len(alone))
	for _, l := range alone {
		for _, n := range [2]int{l.from, l.to} {
			if s := spotOf(m.V[n]); !seen[s] {
				seen[s] = true
				corners = append(corners, n)
			}
		}
	}
	sort.Slice(corners, func(i, j int) bool { return before3(m.V[corners[i]], m.V[corners[j]]) })
	out := map[side][]int{}
	for _, l := range alone {
		a, b := m.V[l.from], m.V[l.to]
		from := sort.Search(len(corners), func(i int) bool { return m.V[corners[i]].X >= min(a.X, b.X)-onSide })
		var on []int
		for _, n := range corners[from:] {
			if m.V[n].X > max(a.X, b.X)+onSide {
				break
			}
			if !apart(m.V[n].Y, a.Y, b.Y) && !apart(m.V[n].Z, a.Z, b.Z) && within3(m.V[n], a, b) {
				on = append(on, n)
			}
		}
		if len(on) > 0 {
			sort.Slice(on, func(i, j int) bool { return geom.Dist(m.V[on[i]], a) < geom.Dist(m.V[on[j]], a) })
			out[l.side] = on
		}
	}
	return out
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

func before3(a, b r3.Vec) bool {
	if a.X != b.X {
		return a.X < b.X
	}
	if a.Y != b.Y {
		return a.Y < b.Y
	}
	return a.Z < b.Z
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
