package geom

import (
	"fmt"
	"math"

	poly2tri "github.com/ByteArena/poly2tri-go"
	"gonum.org/v1/gonum/spatial/r2"
)

// TriangulatePolygon divides a ring with holes into counter-clockwise triangles
// that use no points but theirs (a constrained Delaunay triangulation). Indices
// count the ring's vertices and then each hole's. Of vertices that repeat the
// one before, only the first is used.
//
// It is an error when a ring has no area or crosses itself, and when rings
// touch or a hole is not inside, as far as the triangles' area shows.
func TriangulatePolygon(ring []r2.Vec, holes ...[]r2.Vec) (tris [][3]int, err error) {
	for _, by := range sweepTurns {
		if tris, err = triangulated(by, ring, holes); err == nil {
			return tris, nil
		}
	}
	return nil, err
}

// sweepTurns (rounding) are angles that an outline is turned by before it is
// divided, one after the other until one works: the library sweeps upwards and
// gets lost where several points of a curve lie on one level, as those of a
// mirror-symmetric outline do.
var sweepTurns = []float64{0, 0.7, 1.9}

func triangulated(by float64, ring []r2.Vec, holes [][]r2.Vec) (tris [][3]int, err error) {
	defer func() {
		if r := recover(); r != nil { // the library panics on rings that touch
			tris, err = nil, fmt.Errorf("dividing an outline of %d points into triangles: its rings touch or cross (%v)", len(ring), r)
		}
	}()
	index := map[*poly2tri.Point]int{}
	want, base := 0.0, 0
	var context *poly2tri.SweepContext
	for k, r := range append([][]r2.Vec{ring}, holes...) {
		pts := contour(r, by, base, index)
		base += len(r)
		if i, j, crosses := Crossing(distinctRing(r)); crosses || len(pts) < 3 {
			return nil, fmt.Errorf("dividing an outline into triangles: ring %d (of %d points) must be simple, but its edges %d and %d meet", k, len(r), i, j)
		}
		if k == 0 {
			context = poly2tri.NewSweepContext(pts, false)
			want = math.Abs(Area(r))
		} else {
			context.AddHole(pts)
			want -= math.Abs(Area(r))
		}
	}
	context.Triangulate()
	got := 0.0
	for _, t := range context.GetTriangles() {
		a, b, c := t.GetPoint(0), t.GetPoint(1), t.GetPoint(2)
		got += turn(vec(a), vec(b), vec(c)) / 2
		tris = append(tris, [3]int{index[a], index[b], index[c]})
	}
	if math.Abs(got-want) > 1e-6*math.Abs(want) { // rounding
		return nil, fmt.Errorf("dividing an outline of %d points into triangles: they cover %.3f mm² of %.3f; a hole is outside or rings touch", len(ring), got, want)
	}
	return tris, nil
}

// contour makes the library's points of a ring's distinct vertices.
func contour(ring []r2.Vec, by float64, base int, index map[*poly2tri.Point]int) []*poly2tri.Point {
	var pts []*poly2tri.Point
	for i, p := range ring {
		if repeats(ring, i) {
			continue
		}
		if by != 0 {
			p = r2.Rotate(p, by, r2.Vec{})
		}
		pt := poly2tri.NewPoint(snapped(p.X), snapped(p.Y))
		index[pt] = base + i
		pts = append(pts, pt)
	}
	return pts
}

// snapped is a coordinate without its last digits: rounding must not choose
// between the two diagonals of four points on one circle, as those of a
// mirror-symmetric outline are.
func snapped(x float64) float64 {
	const grid = Coincident / 10
	return math.Round(x/grid) * grid
}

// distinctRing is a ring without vertices that repeat the one before.
func distinctRing(ring []r2.Vec) []r2.Vec {
	var out []r2.Vec
	for i, p := range ring {
		if !repeats(ring, i) {
			out = append(out, p)
		}
	}
	return out
}

// repeats tells whether vertex i stands where the one before does; the first
// vertex never repeats, the last may repeat the first.
func repeats(ring []r2.Vec, i int) bool {
	before := i > 0 && Dist(ring[i-1], ring[i]) <= Coincident
	closes := i > 0 && i == len(ring)-1 && Dist(ring[0], ring[i]) <= Coincident
	return before || closes
}

func vec(p *poly2tri.Point) r2.Vec { return r2.Vec{X: p.X, Y: p.Y} }
