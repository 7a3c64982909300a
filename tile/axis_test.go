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

// The strokes of a line up to which another part lies stand on its left.
func TestCoveredStrokes_standLeft(t *testing.T) {
	line := []r2.Vec{{}, {X: 20}, {X: 20, Y: 30}} // turns left
	strokes := coveredStrokes(line)
	if len(strokes) != 7 { // one for each 7 mm of 50
		t.Fatalf("%d strokes", len(strokes))
	}
	left := []r2.Vec{{}, {X: 20}, {X: 20, Y: 30}, {Y: 30}}
	for _, s := range strokes {
		if !geom.Inside(left, s[1]) || math.Abs(geom.Length(s)-coveredDeep) > 1e-9 {
			t.Errorf("%v is not on the left, or not %g mm long", s, coveredDeep)
		}
	}
}
