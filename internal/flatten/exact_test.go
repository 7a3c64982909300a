package flatten

import (
	"fmt"
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func TestUnroll_developableSurfaces_areExact(t *testing.T) {
	// Source: closed-form developments (ruled surfaces in any book on descriptive
	// geometry). A polyline's chords are short by h², and so is the shape.
	for _, s := range []ruled{frustum(), cylinder(), tangents()} {
		t.Run(s.name, func(t *testing.T) {
			r100, r200, r400 := s.rmsAt(t, 100), s.rmsAt(t, 200), s.rmsAt(t, 400)
			t.Logf("rms %.5f, %.5f, %.5f mm at 100, 200, 400 points a rail", r100, r200, r400)
			if r200 > 0.01 {
				t.Errorf("rms is %.4f mm at 200 points a rail, more than 0.01", r200)
			}
			for _, ratio := range []float64{r100 / r200, r200 / r400} {
				if ratio < 3.5 || ratio > 4.5 {
					t.Errorf("halving the step divides the error by %.2f; order h² means 4", ratio)
				}
			}
		})
	}
}

func TestUnroll_frustum_agreesWithHandbook(t *testing.T) {
	// Source: ceemrr.com, "The Net of a Frustum": ducts of 5 and 8 in, 4 in apart,
	// give radii 7.12 and 11.39 in and a sector of 126.4°.
	const n = 400
	var p, q []r3.Vec
	for i := range n + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		p = append(p, r3.Vec{X: 4 * c, Y: 4 * s})
		q = append(q, r3.Vec{X: 2.5 * c, Y: 2.5 * s, Z: 4})
	}
	strip, err := Triangulate(p, q)
	if err != nil {
		t.Fatal(err)
	}
	f := strip.Unroll()
	outer, inner := circle(f.P[0], f.P[n/2], f.P[n]), circle(f.Q[0], f.Q[n/2], f.Q[n])
	near(t, "outer radius", outer, 11.39, 0.005)
	near(t, "inner radius", inner, 7.12, 0.005)
	near(t, "sector", geom.Length(f.P)/outer*180/math.Pi, 126.4, 0.05)
}

// circle is the radius of the circle through three points.
func circle(a, b, c r2.Vec) float64 {
	area := math.Abs(geom.Area([]r2.Vec{a, b, c}))
	return geom.Dist(a, b) * geom.Dist(b, c) * geom.Dist(c, a) / (4 * area)
}

func TestUnroll_elbow_hasTheKnownOrdinates(t *testing.T) {
	// Source: y = R·tan β·(1-cos θ), Kittredge, "New Metal Worker Pattern Book",
	// problem 38; 100 mm pipe, 90° in two pieces, 16 divisions.
	want := []float64{0, 3.8060, 14.6447, 30.8658, 50, 69.1342, 85.3553, 96.1940, 100}
	const n, below = 400, 30.0
	var p, q []r3.Vec
	for i := range n + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		p = append(p, r3.Vec{X: 50 * c, Y: 50 * s, Z: -below})
		q = append(q, r3.Vec{X: 50 * c, Y: 50 * s, Z: 50 * (1 - c)})
	}
	strip, err := Triangulate(p, q)
	if err != nil {
		t.Fatal(err)
	}
	f := strip.Unroll()
	near(t, "girth", geom.Dist(f.P[0], f.P[n]), 314.1593, 0.01)
	base := r2.Unit(r2.Sub(f.P[n], f.P[0]))
	for k := range 17 {
		y := r2.Cross(base, r2.Sub(f.Q[k*n/16], f.P[0])) - below
		near(t, fmt.Sprintf("ordinate %d", k), y, want[min(k, 16-k)], 0.01)
	}
}

func TestUnroll_obliqueCone_hasTheLimitAngle(t *testing.T) {
	// Source: Kittredge, problem 163 (true lengths by triangulation), carried to
	// infinitely many divisions. The values are for the whole turn; the cone is
	// symmetric, and half of it is laid out here.
	for _, c := range []struct{ r, e, h, angle float64 }{
		{50, 80, 120, 111.6077},
		{50, 50, 100, 143.5400},
		{35, 20, 60, 173.2492},
	} {
		apex := r3.Vec{X: c.e, Z: c.h}
		rail := func(n int, share float64, warp float64) (out []r3.Vec) {
			for i := range n {
				u := float64(i) / float64(n-1)
				s, k := math.Sincos(math.Pi * (u + warp*math.Sin(2*math.Pi*u)))
				if i == n-1 {
					s, k = 0, -1
				}
				out = append(out, geom.Lerp(r3.Vec{X: c.r * k, Y: c.r * s}, apex, share))
			}
			return out
		}
		for name, q := range map[string][]r3.Vec{"to its apex": {apex}, "cut off": rail(160, 0.4, 0.1)} {
			p := rail(200, 0, 0)
			strip, err := Triangulate(p, q)
			if err != nil {
				t.Fatal(err)
			}
			f := strip.Unroll()
			at := func(i, j int) r2.Vec {
				if len(q) == 1 {
					return r2.Sub(f.P[i], f.Q[0])
				}
				return r2.Sub(f.P[i], f.Q[j])
			}
			got := 2 * angle(at(0, 0), at(len(p)-1, len(q)-1))
			near(t, fmt.Sprintf("angle of cone %v %s", c, name), got, c.angle, 0.01)
		}
	}
}

func angle(a, b r2.Vec) float64 {
	return math.Abs(math.Atan2(r2.Cross(a, b), r2.Dot(a, b))) * 180 / math.Pi
}

func TestUnroll_sphereGores_areTheDevelopableOnes(t *testing.T) {
	// Source: half chord R·sin(π/n)·cos(latitude) along a quarter of an ellipse;
	// R = 100: 38.2683 at the equator for n = 8, centreline 151.1603.
	for _, c := range []struct{ n, half, half30, half60, centre float64 }{
		{8, 38.2683, 33.1414, 19.1342, 151.1603},
		{12, 25.8819, 22.4144, 12.9410, 0},
	} {
		s := gore(c.n)
		var p, q []r3.Vec
		for i := range 181 {
			u := float64(i) / 180
			pv, _ := s.p(u)
			qv, _ := s.q(u)
			p, q = append(p, pv), append(q, qv)
		}
		strip, err := Triangulate(p, q)
		if err != nil {
			t.Fatal(err)
		}
		f := strip.Unroll()
		near(t, "half chord at the equator", geom.Dist(f.P[0], f.Q[0])/2, c.half, 1e-4)
		near(t, "half chord at 30°", geom.Dist(f.P[60], f.Q[60])/2, c.half30, 1e-3)
		near(t, "half chord at 60°", geom.Dist(f.P[120], f.Q[120])/2, c.half60, 1e-3)
		var centre []r2.Vec
		for i := range f.P {
			centre = append(centre, geom.Lerp(f.P[i], f.Q[i], 0.5))
		}
		if c.centre > 0 {
			near(t, "centreline", geom.Length(centre), c.centre, 0.005)
		}
		if f.P[180] != f.Q[180] {
			t.Errorf("the gore's tip is at %v and at %v", f.P[180], f.Q[180])
		}
		near(t, "seam", geom.Length(f.P), 157.0796, 0.002)
		if rms := s.rmsAt(t, 200); rms > 0.01 {
			t.Errorf("a gore of %g with unlike rails is off by %.4f mm rms", c.n, rms)
		}
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.5f, want %.5f ± %g", what, got, want, within)
	}
}
