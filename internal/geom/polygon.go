package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Rings are closed: the first vertex is not repeated at the end.

// Area is the signed area of a ring, positive when it runs counter-clockwise.
func Area(ring []r2.Vec) float64 {
	if len(ring) < 3 {
		return 0
	}
	var sum float64
	o := ring[0]
	for i := 1; i+1 < len(ring); i++ {
		sum += r2.Cross(r2.Sub(ring[i], o), r2.Sub(ring[i+1], o))
	}
	return sum / 2
}

// CCW is the ring run counter-clockwise: itself, or reversed.
func CCW(ring []r2.Vec) []r2.Vec {
	if Area(ring) < 0 {
		return Reversed(ring)
	}
	return ring
}

// Centroid is the centre of gravity of a ring's inside.
func Centroid(ring []r2.Vec) r2.Vec {
	var c r2.Vec
	o, area := ring[0], 0.0
	for i := 1; i+1 < len(ring); i++ {
		a, b := r2.Sub(ring[i], o), r2.Sub(ring[i+1], o)
		w := r2.Cross(a, b)
		area += w
		c = r2.Add(c, r2.Scale(w/3, r2.Add(a, b)))
	}
	if area == 0 {
		return o
	}
	return r2.Add(o, r2.Scale(1/area, c))
}

// Inside tells whether a point lies inside a ring, by the even-odd rule; an
// edge counts if exactly one of its ends is strictly above the point. Points
// on the ring itself may go either way.
func Inside(ring []r2.Vec, p r2.Vec) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// Bounds is the upright box round points.
func Bounds(pts []r2.Vec) r2.Box {
	box := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, p := range pts {
		box.Min = r2.Vec{X: min(box.Min.X, p.X), Y: min(box.Min.Y, p.Y)}
		box.Max = r2.Vec{X: max(box.Max.X, p.X), Y: max(box.Max.Y, p.Y)}
	}
	return box
}

// Support is how far points reach in a direction (a unit vector): the largest
// dot product. It is the support function of their convex hull.
func Support(pts []r2.Vec, dir r2.Vec) float64 {
	reach := math.Inf(-1)
	for _, p := range pts {
		reach = max(reach, r2.Dot(p, dir))
	}
	return reach
}

// NearestOnSegment is the point of segment ab nearest to p, with the fraction
// of the way from a to b at which it lies.
func NearestOnSegment(p, a, b r2.Vec) (q r2.Vec, t float64) {
	d := r2.Sub(b, a)
	if l2 := r2.Norm2(d); l2 > 0 {
		t = min(max(r2.Dot(r2.Sub(p, a), d)/l2, 0), 1)
	}
	if t == 1 {
		return b, 1
	}
	return r2.Add(a, r2.Scale(t, d)), t
}

// DistToSegment is the distance from p to the segment ab.
func DistToSegment(p, a, b r2.Vec) float64 {
	q, _ := NearestOnSegment(p, a, b)
	return Dist(p, q)
}

// DistToRing is the distance from p to the nearest point of a ring's border.
func DistToRing(ring []r2.Vec, p r2.Vec) float64 {
	best, nearest := math.Inf(1), r2.Vec{X: math.Inf(1)}
	for i, a := range ring {
		q, _ := NearestOnSegment(p, a, ring[(i+1)%len(ring)])
		if d := r2.Norm2(r2.Sub(q, p)); d < best {
			best, nearest = d, q
		}
	}
	return Dist(p, nearest)
}
