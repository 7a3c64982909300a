package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A curve through points of a parabola keeps close to it up to its ends (source:
// y = x² / 50).
func TestSmoothLine_keepsAParabola(t *testing.T) {
	var pts []r2.Vec
	for x := -50.0; x <= 50; x += 10 {
		pts = append(pts, r2.Vec{X: x, Y: x * x / 50})
	}
	line := SmoothLine(pts, make([]bool, len(pts)), 1)
	if line[0] != pts[0] || line[len(line)-1] != pts[len(pts)-1] {
		t.Fatalf("from %v to %v", line[0], line[len(line)-1])
	}
	for _, p := range line {
		if math.Abs(p.Y-p.X*p.X/50) > 0.02 {
			t.Errorf("%v is %.3f off the parabola", p, p.Y-p.X*p.X/50)
		}
	}
	if two := SmoothLine(pts[:2], make([]bool, 2), 1); two[0] != pts[0] || two[len(two)-1] != pts[1] {
		t.Errorf("two points give %v", two)
	}
}
