package body_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// What Nearer leaves out never matters: outside the body it is the distance of
// the whole skin, searched in one tree.
func TestForm_nearerAgreesWithWholeSkin(t *testing.T) {
	f := someone(t, nil)
	skin := geom.NewLocator(f.Mesh())
	random := rand.New(rand.NewPCG(4, 4))
	outside := 0
	for range 600 {
		at := r3.Vec{X: 900 * (random.Float64() - .5), Y: 1900 * random.Float64(), Z: 500 * (random.Float64() - .5)}
		d := f.Distance(at)
		if d > 0 {
			outside++
			_, q := skin.Nearest(at)
			near(t, "distance from the skin", d, geom.Dist(at, q), 1e-9)
		}
		for _, most := range []float64{-20, 0, 15, 200} {
			if got := f.Nearer(at, most); got != min(most, d) {
				t.Errorf("of %g and %g, %g is said to be less", most, d, got)
			}
		}
		for _, p := range f.Parts() {
			e := p.Nearer(at, math.Inf(1))
			if e < d {
				t.Errorf("%v is %g mm from the body but %g mm from the %s", at, d, e, p.Segment)
			}
			if got := p.NearerOutside(at, 40); d > 0 && got != min(e, 40) {
				t.Errorf("%v is %g mm from the %s, but outside, of that and 40 mm, %g is said to be less", at, e, p.Segment, got)
			}
		}
	}
	if outside < 300 {
		t.Errorf("only %d points lie outside", outside)
	}
}
