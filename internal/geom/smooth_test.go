package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A circle given by twelve points: half way between two of them, with tangents
// as long as the chord c = 2·R·sin 15°, the cubic stands R·cos 15° + c·sin 15°/4
// from the centre, by hand 99.942 for R = 100; nowhere is it farther off.
func TestSmoothRing_roundsACircle(t *testing.T) {
	var points []r2.Vec
	for i := range 12 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
		points = append(points, r2.Vec{X: 100 * cos, Y: 100 * sin})
	}
	ring := SmoothRing(points, make([]bool, 12), 1)
	var far float64
	for _, p := range ring {
		far = max(far, math.Abs(r2.Norm(p)-100))
	}
	near(t, "farthest off the circle", far, .058, .001)
}

// Corners on both ends of every chord leave a polygon as it is.
func TestSmoothRing_turnsSharplyAtCorners(t *testing.T) {
	square := []r2.Vec{{}, {X: 40}, {X: 40, Y: 30}, {Y: 30}}
	ring := SmoothRing(square, []bool{true, true, true, true}, 1)
	near(t, "perimeter", Perimeter(ring), 140, 1e-9)
	near(t, "area", Area(ring), 1200, 1e-9)
}
