package flatten

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// ruled is a developable surface between two rails over u in [0, 1], and its
// exact development.
type ruled struct {
	name string
	p, q func(u float64) (r3.Vec, r2.Vec)
}

// sample puts m and n points on the rails. The parameters of Q are warped, so
// that points of equal index lie on different rulings: joining by index or by
// the shortest rung then gives wrong shapes.
func (s ruled) sample(m, n int) (p, q []r3.Vec, exact []r2.Vec) {
	for i := range m {
		v, e := s.p(float64(i) / float64(m-1))
		p, exact = append(p, v), append(exact, e)
	}
	for j := range n {
		u := float64(j) / float64(n-1)
		v, e := s.q(u + 0.1*math.Sin(2*math.Pi*u))
		q, exact = append(q, v), append(exact, e)
	}
	return p, q, exact
}

// rmsAt is how far the flat strip's vertices are from the exact development.
func (s ruled) rmsAt(t testing.TB, n int) float64 {
	p, q, exact := s.sample(n, n)
	strip, err := Triangulate(p, q)
	if err != nil {
		t.Fatal(err)
	}
	_, rms := geom.FitRigid(strip.Unroll().Vertices(), exact)
	return rms
}

// frustum is a cone's wall over 200°: radius 100 below, 60 above, 80 high. It
// develops into a ring sector about the apex.
func frustum() ruled {
	const r1, r2_, h = 100.0, 60.0, 80.0
	slant := math.Hypot(r1-r2_, h)
	rail := func(r, z float64) func(u float64) (r3.Vec, r2.Vec) {
		return func(u float64) (r3.Vec, r2.Vec) {
			a := u * 200 * math.Pi / 180
			fromApex := r * slant / (r1 - r2_)
			s, c := math.Sincos(a * (r1 - r2_) / slant)
			return r3.Vec{X: r * math.Cos(a), Y: r * math.Sin(a), Z: z}, r2.Vec{X: fromApex * c, Y: fromApex * s}
		}
	}
	return ruled{"cone frustum", rail(r1, 0), rail(r2_, h)}
}

// cylinder is half a pipe of radius 50, cut off square below and slanting above.
func cylinder() ruled {
	rail := func(height func(a float64) float64) func(u float64) (r3.Vec, r2.Vec) {
		return func(u float64) (r3.Vec, r2.Vec) {
			a := u * math.Pi
			z := height(a)
			return r3.Vec{X: 50 * math.Cos(a), Y: 50 * math.Sin(a), Z: z}, r2.Vec{X: 50 * a, Y: z}
		}
	}
	return ruled{
		"oblique cylinder",
		rail(func(float64) float64 { return 0 }),
		rail(func(a float64) float64 { return 120 + 40*math.Cos(a) }),
	}
}

// tangents are the tangents of a helix (radius 60, rise 30 per radian) between
// 40 and 100 mm from it. The helix has curvature 60/(60²+30²) everywhere, so it
// develops into a circle and its tangents into that circle's.
func tangents() ruled {
	const a, b = 60.0, 30.0
	speed := math.Hypot(a, b)
	radius := speed * speed / a
	rail := func(v float64) func(u float64) (r3.Vec, r2.Vec) {
		return func(u float64) (r3.Vec, r2.Vec) {
			t := u * math.Pi / 2
			s, c := math.Sincos(t)
			on := r3.Vec{X: a * c, Y: a * s, Z: b * t}
			dir := r3.Vec{X: -a * s / speed, Y: a * c / speed, Z: b / speed}
			fs, fc := math.Sincos(t * speed / radius)
			flat := r2.Vec{X: radius*fs + v*fc, Y: -radius*fc + v*fs}
			return r3.Add(on, r3.Scale(v, dir)), flat
		}
	}
	return ruled{"tangents of a helix", rail(100), rail(40)}
}

// gore is one of n equal gores of a sphere of radius 100, bent, its seams on
// the sphere; half of it, from the equator to the pole. Its rungs are level, so
// it develops along a quarter of an ellipse with semi-axes R and R·cos(π/n).
func gore(n float64) ruled {
	const r = 100.0
	half := math.Pi / n
	rail := func(side float64) func(u float64) (r3.Vec, r2.Vec) {
		return func(u float64) (r3.Vec, r2.Vec) {
			lat := u * math.Pi / 2
			s, c := math.Sincos(lat)
			if u == 1 {
				c = 0
			}
			chord := r * c * math.Sin(half) * side
			p := r3.Vec{X: r * c * math.Cos(half), Y: chord, Z: r * s}
			return p, r2.Vec{X: chord, Y: ellipseArc(r*math.Cos(half), r, lat)}
		}
	}
	return ruled{"gore", rail(1), rail(-1)}
}

// ellipseArc is the length of (a cos t, b sin t) from t = 0, by Simpson's rule.
func ellipseArc(a, b, to float64) float64 {
	const n = 400
	f := func(t float64) float64 { return math.Hypot(a*math.Sin(t), b*math.Cos(t)) }
	sum := f(0) + f(to)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * f(to*float64(i)/n)
	}
	return sum * to / n / 3
}
