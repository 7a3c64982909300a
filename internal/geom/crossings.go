package geom

import (
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// Crossing finds two edges of a ring that meet where they should not: they
// cross, touch or lie on each other, or neighbours fold straight back. Edge i
// runs from vertex i to the next. ok is false when the ring is simple; then it
// bounds one area. Of several pairs, the one further left is given.
func Crossing(ring []r2.Vec) (i, j int, ok bool) {
	n := len(ring)
	at := func(k int) (a, b r2.Vec) { return ring[k], ring[(k+1)%n] }
	order := make([]int, n)
	left, right := make([]float64, n), make([]float64, n)
	for k := range order {
		a, b := at(k)
		order[k], left[k], right[k] = k, min(a.X, b.X), max(a.X, b.X)
	}
	sort.SliceStable(order, func(x, y int) bool { return left[order[x]] < left[order[y]] })
	for x, i := range order {
		for _, j := range order[x+1:] {
			if left[j] > right[i] {
				break
			}
			if badPair(ring, min(i, j), max(i, j)) {
				return min(i, j), max(i, j), true
			}
		}
	}
	return 0, 0, false
}

// badPair tells whether edges i < j of a ring meet beyond a shared corner.
func badPair(ring []r2.Vec, i, j int) bool {
	n := len(ring)
	a, b := ring[i], ring[(i+1)%n]
	c, d := ring[j], ring[(j+1)%n]
	switch {
	case j == i+1:
		return foldsBack(a, b, d)
	case i == 0 && j == n-1:
		return foldsBack(c, a, b)
	}
	return SegmentsMeet(a, b, c, d)
}

// foldsBack tells whether the way a, b, c returns onto itself at b.
func foldsBack(a, b, c r2.Vec) bool {
	return turn(a, b, c) == 0 && r2.Dot(r2.Sub(b, a), r2.Sub(c, b)) < 0
}

// SegmentsMeet tells whether the segments ab and cd have a point in common;
// touching counts.
func SegmentsMeet(a, b, c, d r2.Vec) bool {
	if max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) ||
		max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) {
		return false
	}
	t1, t2 := turn(a, b, c), turn(a, b, d)
	t3, t4 := turn(c, d, a), turn(c, d, b)
	apart := t1 > 0 && t2 > 0 || t1 < 0 && t2 < 0 || t3 > 0 && t4 > 0 || t3 < 0 && t4 < 0
	return !apart
}
