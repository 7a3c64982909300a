package geom_test

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// An arc of radius r may be drawn in chords whose rise is the tolerance: they
// span 2·acos(1 − tolerance/r), and no fewer can do.
func TestThin_arc(t *testing.T) {
	const r, within = 100.0, 0.1
	var line []r2.Vec
	for i := range 901 {
		a := float64(i) / 900 * math.Pi / 2
		line = append(line, r2.Vec{X: r * math.Cos(a), Y: r * math.Sin(a)})
	}
	thin := geom.Thin(line, within)
	least := int(math.Ceil(math.Pi / 2 / (2 * math.Acos(1-within/r))))
	if n := len(thin) - 1; n < least || n > 2*least {
		t.Errorf("%d chords; want %d to %d", n, least, 2*least)
	}
	for _, p := range line {
		best := math.Inf(1)
		for i := 1; i < len(thin); i++ {
			best = min(best, geom.DistToSegment(p, thin[i-1], thin[i]))
		}
		if best > within {
			t.Fatalf("%v lies %.3f mm off", p, best)
		}
	}
	if thin[0] != line[0] || thin[len(thin)-1] != line[900] {
		t.Error("its ends have moved")
	}
}

func TestThin_keepsCorners(t *testing.T) {
	line := []r2.Vec{{}, {X: 1}, {X: 2}, {X: 2, Y: 1}, {X: 2, Y: 2}}
	if thin := geom.Thin(line, 0.1); len(thin) != 3 || thin[1] != line[2] {
		t.Errorf("a corner thins to %v", thin)
	}
}
