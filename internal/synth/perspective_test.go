package synth_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/internal/synth"
)

// apart is how far two places are apart in a picture from straight ahead.
func apart(cam photo.Camera, a, b r3.Vec) float64 {
	p, q := cam.Project(a), cam.Project(b)
	return math.Hypot(p.X-q.X, p.Y-q.Y)
}

// What stands d nearer than the plane of the ruler, which is D away, looks
// larger by d/(D−d). Percent, worked by hand.
func TestDepthTable(t *testing.T) {
	t.Parallel()
	depths := []float64{10, 20, 50, 100, 150}
	for _, row := range []struct {
		distance float64
		percent  [5]float64
	}{
		{500, [5]float64{2.0, 4.2, 11.1, 25.0, 42.9}},
		{1000, [5]float64{1.0, 2.0, 5.3, 11.1, 17.6}},
		{1500, [5]float64{0.7, 1.4, 3.4, 7.1, 11.1}},
		{2000, [5]float64{0.5, 1.0, 2.6, 5.3, 8.1}},
		{3000, [5]float64{0.3, 0.7, 1.7, 3.4, 5.3}},
		{4000, [5]float64{0.3, 0.5, 1.3, 2.6, 3.9}},
	} {
		for _, f35 := range []float64{24, 70} { // whatever the lens
			cam := synth.Pose{Distance: row.distance}.Camera(f35, 3000, 4000)
			ruler := apart(cam, r3.Vec{X: -50}, r3.Vec{X: 50})
			for i, d := range depths {
				larger := 100 * (apart(cam, r3.Vec{X: -50, Z: d}, r3.Vec{X: 50, Z: d})/ruler - 1)
				if math.Abs(larger-row.percent[i]) > .05+1e-9 {
					t.Errorf("%.0f mm in front at %.1f m looks %.2f %% larger; it should be %.1f", d, row.distance/1000, larger, row.percent[i])
				}
			}
		}
	}
}

// A nose in a picture from 12 inches: its base looks about 30 % wider and its tip
// about 7 % wider than from 5 feet, against the breadth of the face. Source: a
// model published in JAMA Facial Plastic Surgery 2018; base and cheekbones lie
// 115 to 120 mm apart in depth for the base's 30 %.
func TestNoseFromNearAndFar(t *testing.T) {
	t.Parallel()
	ratio := func(distance, depth float64) float64 {
		cam := synth.Pose{Distance: distance, Target: r3.Vec{Z: depth}}.Camera(28, 3000, 4000) // distance to the nose
		nose := apart(cam, r3.Vec{X: -18, Z: depth}, r3.Vec{X: 18, Z: depth})
		return nose / apart(cam, r3.Vec{X: -70}, r3.Vec{X: 70})
	}
	for _, depth := range []float64{115, 120} {
		wider := ratio(304.8, depth)/ratio(1524, depth) - 1
		t.Logf("%.0f mm before the cheekbones: %.0f %% wider from 12 inches than from 5 feet", depth, 100*wider)
		if math.Abs(wider-.30) > .03 {
			t.Errorf("a nose %.0f mm before the cheekbones looks %.1f %% wider from near; about 30 %% is published", depth, 100*wider)
		}
	}
}

// A round limb's outline looks larger than its breadth in the plane of its axis
// by 1/√(1−(r/D)²) − 1. Percent, worked by hand.
func TestRoundLimb(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ radius, distance, percent float64 }{{75, 500, 1.14}, {75, 1000, .28}, {75, 2000, .07}, {150, 500, 4.8}, {150, 1000, 1.1}, {150, 2000, .28}} {
		cam := synth.Pose{Distance: c.distance}.Camera(50, 3000, 4000)
		var widest float64
		for i := range 7200 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 3600)
			widest = max(widest, cam.Project(r3.Vec{X: c.radius * sin, Z: c.radius * cos}).X)
		}
		flat := cam.Project(r3.Vec{X: c.radius}).X
		larger := 100 * ((widest-cam.Centre.X)/(flat-cam.Centre.X) - 1)
		if math.Abs(larger-c.percent) > .06 {
			t.Errorf("radius %.0f at %.0f mm looks %.2f %% larger; it should be %.2f", c.radius, c.distance, larger, c.percent)
		}
	}
}
