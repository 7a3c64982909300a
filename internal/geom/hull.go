package geom

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Hull is the convex hull of points, counter-clockwise from the leftmost (and
// then lowest) point, without points that lie on its edges.
//
// Source: A. M. Andrew, "Another efficient algorithm for convex hulls in two
// dimensions", Information Processing Letters 9 (1979).
func Hull(pts []r2.Vec) []r2.Vec {
	sorted := sortedAlong(pts)
	if len(sorted) < 3 {
		return sorted
	}
	out := chain(make([]r2.Vec, 0, 64), sorted)
	lower := len(out) - 1
	slices.Reverse(sorted)
	out = chain(out[:lower], sorted)
	return out[:len(out)-1]
}

// sortedAlong is a copy of points sorted along the plane. They are first thrown into as
// many equal stretches of the plane as there are points, which leaves little to
// sort. Source: D. E. Knuth, "The Art of Computer Programming", volume 3, 5.2.1
// (straight insertion) and 5.2.5 (distribution).
func sortedAlong(pts []r2.Vec) []r2.Vec {
	const most = 4096 // insertion would take long if these stood crowded
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		if p.X < low {
			low = p.X
		}
		if p.X > high {
			high = p.X
		}
	}
	n := len(pts)
	share := float64(n) / (high - low) // of the stretches, a millimetre
	if n > most || !(share > 0 && share < math.Inf(1)) {
		sorted := slices.Clone(pts)
		slices.SortFunc(sorted, func(a, b r2.Vec) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
		return sorted
	}
	in := func(p r2.Vec) int { return max(0, min(int((p.X-low)*share), n-1)) }
	first := make([]int32, n+1)
	for _, p := range pts {
		first[in(p)+1]++
	}
	for i := range n {
		first[i+1] += first[i]
	}
	sorted := make([]r2.Vec, n)
	for _, p := range pts {
		i := in(p)
		sorted[first[i]] = p
		first[i]++
	}
	for i := 1; i < n; i++ {
		p, j := sorted[i], i
		for ; j > 0 && (p.X < sorted[j-1].X || p.X == sorted[j-1].X && p.Y < sorted[j-1].Y); j-- {
			sorted[j] = sorted[j-1]
		}
		sorted[j] = p
	}
	return sorted
}

// chain adds the left turns of points sorted along the plane.
func chain(out, sorted []r2.Vec) []r2.Vec {
	first := len(out)
	for _, p := range sorted {
		for len(out) >= first+2 && turn(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	return out
}

// turn is positive when a, b, c turn left: twice the triangle's signed area.
func turn(a, b, c r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) }
