package geom_test

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// A mirror-symmetric curve has pairs of points on one level. Its triangles cover
// its area, whatever way it is turned (Source: area is kept by turning).
func TestTriangulatePolygon_symmetricCurve(t *testing.T) {
	drawn := []r2.Vec{{X: -75, Y: -12}, {X: 75, Y: -12}, {X: 66, Y: 41.25}, {Y: 55}, {X: -66, Y: 41.25}}
	ring := geom.SmoothRing(drawn, []bool{true, true, false, false, false}, 1)
	tris, err := geom.TriangulatePolygon(ring)
	if err != nil {
		t.Fatal(err)
	}
	got := 0.0
	for _, c := range tris {
		got += geom.Area([]r2.Vec{ring[c[0]], ring[c[1]], ring[c[2]]})
	}
	if want := geom.Area(ring); math.Abs(got-want) > 1e-6*want {
		t.Errorf("the triangles cover %.3f mm² of %.3f", got, want)
	}
}
