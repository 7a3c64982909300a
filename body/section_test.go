package body_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tasset/body"
)

// The girths of a superellipse with two depths. Source: a polygon of 400,000
// points, computed by others than this program.
func TestSection_girthIsThatOfAFinePolygon(t *testing.T) {
	for _, c := range []struct{ breadth, front, back, n, want float64 }{
		{300, 150, 90, 2.5, 888.4933}, {160, 90, 110, 1.8, 556.2834}, {100, 200, 50, 1.3, 559.6900},
	} {
		s := body.Section{Breadth: c.breadth, Front: c.front, Back: c.back, Exponent: c.n}
		near(t, "girth", s.Girth(), c.want, 1e-4)
	}
}

// The girth at breadth 1 and depth r. Source: the same study's table, 4 decimals.
func TestSection_girthOfUnitBreadth(t *testing.T) {
	exponents := []float64{1.6, 2, 2.5, 3, 4}
	for r, want := range map[float64][]float64{
		.5: {2.3379, 2.4221, 2.5074, 2.5728, 2.6640},
		.7: {2.5821, 2.6912, 2.7988, 2.8803, 2.9927},
		1:  {3.0068, 3.1416, 3.2734, 3.3725, 3.5088},
	} {
		for i, n := range exponents {
			near(t, "girth", body.Split(1, r, .5, n).Girth(), want[i], 6e-5)
		}
	}
}

// Source: the ellipse's perimeter by the arithmetic-geometric mean (exact), and
// superellipse perimeters split at the 45° point and integrated by others.
func TestSection_girthOfEllipseAndSuperellipse(t *testing.T) {
	for _, c := range []struct{ a, b, n, want float64 }{
		{2, 1, 2, 9.688448220547675}, {100, 75, 2, 552.5873040177377}, {160, 110, 2, 855.5179439984888},
		{97, 76, 2, 545.4994640165623}, {3, 1, 2, 13.36489322055526},
		{1, 1, 2.5, 6.546704722966509}, {1, 1, 3, 6.7449931401300685}, {1, 1, 4, 7.0176979435756985},
		{160, 110, 2.5, 889.575842079554}, {160, 110, 3, 915.3507460264475}, {1, 1, 1, 5.656854249492376},
	} {
		got := body.Split(2*c.a, 2*c.b, .5, c.n).Girth()
		near(t, "relative error of the girth", got/c.want-1, 0, 2e-8)
	}
}

func anySection(t *rapid.T) body.Section {
	return body.Split(rapid.Float64Range(50, 500).Draw(t, "breadth"), rapid.Float64Range(50, 400).Draw(t, "depth"),
		rapid.Float64Range(.3, .75).Draw(t, "front"), rapid.Float64Range(1.05, 20).Draw(t, "exponent"))
}

func TestSection_isConvexAndMeetsItsDiameters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySection(t)
		const n = 360
		at := func(i int) (x, z float64) { p := s.At(2 * math.Pi * float64(i) / n); return p.X, p.Y }
		for i := range n {
			ax, az := at(i)
			bx, bz := at(i + 1)
			cx, cz := at(i + 2)
			if turn := (bx-ax)*(cz-bz) - (bz-az)*(cx-bx); turn > 1e-7*s.Breadth*s.Depth() {
				t.Fatalf("%+v turns inwards by %g at step %d", s, turn, i)
			}
		}
		right, back := s.At(math.Pi/2), s.At(math.Pi)
		if math.Abs(right.X-s.Breadth/2) > 1e-9*s.Breadth || math.Abs(s.At(0).Y-back.Y-s.Depth()) > 1e-9*s.Depth() {
			t.Fatalf("%+v misses its own diameters", s)
		}
	})
}

// The girth against a 20,000-gon through At, and the area against the shoelace
// formula: neither uses what Girth and Area use.
func TestSection_girthAndAreaAgainstAPolygon(t *testing.T) {
	for _, s := range []body.Section{body.Split(300, 240, .6, 2.5), body.Split(150, 197, .55, 2.35), body.Split(350, 250, .4, 3.4), body.Split(120, 160, .5, 1.6)} {
		const n = 20000
		var girth, area float64
		p := s.At(0)
		for i := 1; i <= n; i++ {
			q := s.At(2 * math.Pi * float64(i) / n)
			girth += math.Hypot(q.X-p.X, q.Y-p.Y)
			area += (p.Y*q.X - p.X*q.Y) / 2
			p = q
		}
		near(t, "girth", s.Girth(), girth, 1e-3)
		near(t, "area", s.Area()/area-1, 0, 1e-6)
	}
}

func TestSection_solvedExponentGivesTheGirth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, d := rapid.Float64Range(50, 500).Draw(t, "b"), rapid.Float64Range(50, 400).Draw(t, "d")
		front, n := rapid.Float64Range(.3, .7).Draw(t, "front"), rapid.Float64Range(1.65, 5.9).Draw(t, "n")
		girth := body.Split(b, d, front, n).Girth()
		s, ok := body.SolveExponent(girth, b, d, front)
		if !ok || math.Abs(s.Girth()-girth) > 1e-6 || s.Breadth != b || math.Abs(s.Depth()-d) > 1e-9 {
			t.Fatalf("asked %.6f, got %.6f from %+v (%v)", girth, s.Girth(), s, ok)
		}
	})
}
