package geom

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Hull is the convex hull of points, counter-clockwise from the leftmost (and
// then lowest) point, without points that lie on its edges.
//
// Source: A. M. Andrew, "Another efficient algorithm for convex hulls in two
// dimensions", Information Processing Letters 9 (1979).
func Hull(pts []r2.Vec) []r2.Vec {
	sorted := slices.Clone(pts)
	slices.SortFunc(sorted, func(a, b r2.Vec) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	if len(sorted) < 3 {
		return sorted
	}
	out := chain(make([]r2.Vec, 0, 64), sorted)
	lower := len(out) - 1
	slices.Reverse(sorted)
	out = chain(out[:lower], sorted)
	return out[:len(out)-1]
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
