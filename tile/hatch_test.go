package tile

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Hatching leaves out where texts stand, whichever way they are turned.
func TestBesideTexts(t *testing.T) {
	in := &room{taken: [][4]r2.Vec{
		rectangle(r2.Vec{X: 30}, 20, 6, 0),
		rectangle(r2.Vec{X: 36}, 8, 20, math.Pi/2), // 20 long along the line, from 26 to 46
		rectangle(r2.Vec{X: 70}, 4*math.Sqrt2, 4*math.Sqrt2, math.Pi/4),
		rectangle(r2.Vec{X: 50, Y: 20}, 10, 10, 0), // beside it
	}}
	d := &drawing{rooms: []*room{in}}
	got := d.besideTexts(r2.Vec{}, r2.Vec{X: 100})
	want := [][2]float64{{0, 20}, {46, 66}, {74, 100}}
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i, s := range got {
		if geom.Dist(s[0], r2.Vec{X: want[i][0]}) > 1e-9 || geom.Dist(s[1], r2.Vec{X: want[i][1]}) > 1e-9 {
			t.Errorf("%v, want from %g to %g", s, want[i][0], want[i][1])
		}
	}
	if got := d.besideTexts(r2.Vec{X: 25}, r2.Vec{X: 35}); got != nil {
		t.Errorf("in a text: %v", got)
	}
}
