package geom

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Vec is a point of the plane or of space; polylines are made of either.
type Vec interface{ r2.Vec | r3.Vec }

// Dist is the distance between two points.
func Dist[V Vec](a, b V) float64 {
	switch a := any(a).(type) {
	case r2.Vec:
		return math.Sqrt(r2.Norm2(r2.Sub(any(b).(r2.Vec), a)))
	case r3.Vec:
		return length(r3.Sub(any(b).(r3.Vec), a))
	}
	panic("geom: neither r2 nor r3")
}

// Lerp is the point at fraction t on the way from a to b; exactly a at 0 and
// exactly b at 1.
func Lerp[V Vec](a, b V, t float64) V {
	if t == 1 {
		return b
	}
	var out any
	switch a := any(a).(type) {
	case r2.Vec:
		out = r2.Add(a, r2.Scale(t, r2.Sub(any(b).(r2.Vec), a)))
	case r3.Vec:
		out = r3.Add(a, r3.Scale(t, r3.Sub(any(b).(r3.Vec), a)))
	}
	return out.(V)
}

// Lengths gives the arc length from the start of a polyline to each of its
// vertices: 0 first, the whole length last.
func Lengths[V Vec](line []V) []float64 {
	cum := make([]float64, len(line))
	for i := 1; i < len(line); i++ {
		cum[i] = cum[i-1] + Dist(line[i-1], line[i])
	}
	return cum
}

// Length is the length of an open polyline.
func Length[V Vec](line []V) float64 {
	var sum float64
	for i := 1; i < len(line); i++ {
		sum += Dist(line[i-1], line[i])
	}
	return sum
}

// Perimeter is the length of a closed ring whose first vertex is not repeated.
func Perimeter[V Vec](ring []V) float64 {
	if len(ring) < 2 {
		return 0
	}
	return Length(ring) + Dist(ring[len(ring)-1], ring[0])
}

// At is the point at arc length s along a polyline; s is held to its ends.
func At[V Vec](line []V, s float64) V { return AtLength(line, Lengths(line), s) }

// AtLength is At for a polyline whose Lengths are at hand.
func AtLength[V Vec](line []V, cum []float64, s float64) V {
	i, t := Locate(cum, s)
	if t == 0 {
		return line[i]
	}
	return Lerp(line[i], line[i+1], t)
}

// Locate finds arc length s among cumulative lengths: it lies on the stretch
// from vertex i to i+1, at fraction t of it (0 ≤ t < 1; at the last vertex
// i = len-1 and t = 0). s is held to the ends.
func Locate(cum []float64, s float64) (i int, t float64) {
	last := len(cum) - 1
	if s <= 0 || last <= 0 {
		return 0, 0
	}
	if s >= cum[last] {
		return last, 0
	}
	i = sort.Search(len(cum), func(k int) bool { return cum[k] > s }) - 1
	return i, (s - cum[i]) / (cum[i+1] - cum[i])
}

// Resample puts n points (at least 2) on a polyline, evenly by arc length,
// first and last on its ends. Corners of the polyline between them are cut.
func Resample[V Vec](line []V, n int) []V {
	cum := Lengths(line)
	out := make([]V, n)
	for i := range out {
		out[i] = AtLength(line, cum, cum[len(cum)-1]*float64(i)/float64(n-1))
	}
	out[n-1] = line[len(line)-1]
	return out
}

// Between is the stretch of a polyline from one arc length to another. It keeps
// every vertex in between as it is and ends exactly at the two points, which
// are the line's own vertices when they lie within Coincident of them. When to
// is less than from, the stretch runs backwards.
func Between[V Vec](line []V, from, to float64) []V {
	cum := Lengths(line)
	if to < from {
		return Reversed(between(line, cum, to, from))
	}
	return between(line, cum, from, to)
}

func between[V Vec](line []V, cum []float64, from, to float64) []V {
	from, to = snapLength(cum, from), snapLength(cum, to)
	out := []V{AtLength(line, cum, from)}
	for i, s := range cum {
		if s > from && s < to {
			out = append(out, line[i])
		}
	}
	if to > from {
		out = append(out, AtLength(line, cum, to))
	}
	return out
}

// snapLength moves an arc length onto a vertex that is Coincident with it.
func snapLength(cum []float64, s float64) float64 {
	i, _ := Locate(cum, s)
	for _, k := range []int{i, min(i+1, len(cum)-1)} {
		if math.Abs(cum[k]-s) <= Coincident {
			return cum[k]
		}
	}
	return s
}

// Reversed is the polyline run from its end to its start.
func Reversed[V any](line []V) []V {
	out := make([]V, len(line))
	for i, p := range line {
		out[len(line)-1-i] = p
	}
	return out
}

// Distinct drops every vertex that is Coincident with the one kept before it.
func Distinct[V Vec](line []V) []V {
	var out []V
	for _, p := range line {
		if len(out) == 0 || Dist(out[len(out)-1], p) > Coincident {
			out = append(out, p)
		}
	}
	return out
}
