package photo

import "testing"

// The prototype's table of 4:3 pictures, worked out apart from this code: what
// the long side shows at a distance, and the distance for 2.1 m. It took the
// diagonal of film as 43.27 mm, 8e-5 more than here, and rounded to 10 mm.
func TestField_framing(t *testing.T) {
	for _, c := range []struct{ f35, at1, at3, at5, whole float64 }{
		{24, 1.44, 4.33, 7.21, 1.46}, {35, .99, 2.97, 4.95, 2.12}, {50, .69, 2.08, 3.46, 3.03}, {70, .49, 1.48, 2.47, 4.25}, {200, .17, .52, .87, 12.13},
	} {
		for way, want := range map[float64]float64{1: c.at1, 3: c.at3, 5: c.at5} {
			across, up := Field(1000*way, c.f35, 3000, 4000)
			near(t, "metres shown", up/1000, want, .005+8e-5*want)
			near(t, "across for up", across/up, .75, 1e-12)
		}
		near(t, "metres away", DistanceFor(WholeBody, c.f35, 4, 3)/1000, c.whole, .005+8e-5*c.whole)
	}
	// Angle along the long side of a 4:3 picture: 67.3° at 26 mm, 36.8° at 52.
	_, up := Field(1000, 26, 3000, 4000)
	near(t, "half angle's tangent at 26 mm", up/2000, .6657, .0005)
}
