package tile

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// The way of a strap is drawn at both ends of its patch, on its middle line; where it
// is not known nothing is.
func TestAxisEnds(t *testing.T) {
	if got := axisEnds([]r2.Vec{{X: 3}}); got != nil {
		t.Errorf("of an anchor alone: %v", got)
	}
	a, b := r2.Vec{X: 10, Y: 20}, r2.Vec{X: 40, Y: 60}
	got := axisEnds([]r2.Vec{a, b})
	if len(got) != 2 || got[0][0] != a || got[1][1] != b {
		t.Fatalf("%v, want from %v and to %v", got, a, b)
	}
	for _, s := range got {
		if math.Abs(geom.Length(s)-5) > 1e-9 || geom.DistToSegment(s[0], a, b) > 1e-9 || geom.DistToSegment(s[1], a, b) > 1e-9 {
			t.Errorf("%v is no 5 mm of the line from %v to %v", s, a, b)
		}
	}
}
