package tile

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// The arrow in a patch points out of the end where the strap leaves, on its middle line;
// where its way is not known there is none, and of a patch that the panel's edge cuts off
// it stands on the foam.
func TestLeaving(t *testing.T) {
	if got := leaving(nil); got != nil {
		t.Errorf("of an anchor alone: %v", got)
	}
	a, b := r2.Vec{X: 10, Y: 20}, r2.Vec{X: 40, Y: 60}
	got := leaving([][]r2.Vec{{a, b}})
	if len(got) != 2 {
		t.Fatalf("%v, want a shaft and a head", got)
	}
	from, tip := got[0][0], got[0][1]
	if geom.DistToSegment(from, a, b) > 1e-9 || geom.DistToSegment(tip, a, b) > 1e-9 || geom.Dist(from, tip) < 3 {
		t.Errorf("%v to %v does not lie on the line from %v to %v", from, tip, a, b)
	}
	if geom.Dist(tip, b) > 1 || geom.Dist(from, b) < geom.Dist(tip, b) || got[1][1] != tip {
		t.Errorf("%v to %v, head %v: does not point out at %v", from, tip, got[1], b)
	}
	cut := leaving([][]r2.Vec{{a, geom.Lerp(a, b, 0.7)}})
	if d := geom.Dist(cut[0][1], geom.Lerp(a, b, 0.7)); d > 1 {
		t.Errorf("of a patch cut off at 70 %% the tip is %.1f mm from there", d)
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

// A rivet is punched in the middle of its box; a strap's patch has no such place.
func TestPunch_isInTheMiddle(t *testing.T) {
	rivet := patch("rivet 1", 20, 30, 10, 10)
	cross := punch(rivet)
	if len(cross) != 2 {
		t.Fatalf("%d strokes, want a cross", len(cross))
	}
	for _, s := range cross {
		if c := geom.Lerp(s[0], s[1], 0.5); geom.Dist(c, r2.Vec{X: 25, Y: 35}) > 1e-9 {
			t.Errorf("the cross is at %v", c)
		}
	}
	strap := patch("strap 1", 20, 30, 12, 12)
	strap.Axis = []r2.Vec{{X: 26, Y: 30}, {X: 26, Y: 42}}
	if punch(strap) != nil || punch(patch("hook-and-loop", 0, 0, 40, 12)) != nil {
		t.Error("what is glued on has a place to punch")
	}
}
