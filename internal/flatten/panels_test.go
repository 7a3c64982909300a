package flatten

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// panel is a surface over the unit square, triangulated as a grid.
type panel struct {
	name       string
	rows, cols int // vertices
	at         func(u, v float64) r3.Vec
}

func (p panel) vertices() []r3.Vec {
	var out []r3.Vec
	for i := range p.rows {
		for j := range p.cols {
			out = append(out, p.at(float64(j)/float64(p.cols-1), float64(i)/float64(p.rows-1)))
		}
	}
	return out
}

func (p panel) prepare(t testing.TB) *Patch {
	t.Helper()
	patch, err := Prepare(p.rows*p.cols, GridRows(p.rows, p.cols).Triangles())
	if err != nil {
		t.Fatal(err)
	}
	return patch
}

const degree = math.Pi / 180

// ball is a gore of a sphere of 100 mm: width in longitude, between latitudes.
func ball(name string, width, from, to float64, rows, cols int) panel {
	return panel{name, rows, cols, func(u, v float64) r3.Vec {
		s, c := math.Sincos((from + (to-from)*v) * degree)
		ls, lc := math.Sincos(width * (u - 0.5) * degree)
		return r3.Vec{X: 100 * c * ls, Y: 100 * s, Z: 100 * c * lc}
	}}
}

// turned is a surface of revolution: radius r at height h, through an angle.
func turned(name string, angle float64, rows, cols int, profile func(v float64) (r, h float64)) panel {
	return panel{name, rows, cols, func(u, v float64) r3.Vec {
		r, h := profile(v)
		s, c := math.Sincos(angle * (u - 0.5) * degree)
		return r3.Vec{X: r * s, Y: h, Z: r * c}
	}}
}

// saddle is z = k(x² - y²) over 200 mm.
func saddle(name string, k float64, n int) panel {
	return panel{name, n + 1, n + 1, func(u, v float64) r3.Vec {
		x, y := 200*(u-0.5), 200*(v-0.5)
		return r3.Vec{X: x, Y: y, Z: k * (x*x - y*y)}
	}}
}

// spherical is a cap of half angle T on a unit sphere, its mesh a square grid of
// n by n cells pressed into a disc.
func spherical(T float64, n int) panel {
	return panel{"cap", n + 1, n + 1, func(u, v float64) r3.Vec {
		x, y := disc(2*u-1, 2*v-1)
		r := math.Hypot(x, y)
		if r == 0 {
			return r3.Vec{Z: 1}
		}
		s, c := math.Sincos(r * T)
		return r3.Vec{X: s * x / r, Y: s * y / r, Z: c}
	}}
}

// disc maps the square [-1, 1]² onto the unit disc, squares about the middle
// onto circles.
func disc(x, y float64) (float64, float64) {
	r := max(math.Abs(x), math.Abs(y))
	h := math.Hypot(x, y)
	if h == 0 {
		return 0, 0
	}
	return x * r / h, y * r / h
}

// distortion is the 95 % point of max(|s₁-1|, |s₂-1|) by area.
func distortion(t testing.TB, p *Patch, v []r3.Vec, f *Formed) float64 {
	t.Helper()
	tri, err := p.atRest(v)
	if err != nil {
		t.Fatal(err)
	}
	return spread(tri, f.Strain, func(s Strain) float64 {
		return max(math.Abs(s.Long-1), math.Abs(s.Short-1))
	}).P95
}

// perArea is energy over area in space.
func perArea(t testing.TB, p *Patch, v []r3.Vec, f *Formed) float64 {
	t.Helper()
	tri, err := p.atRest(v)
	if err != nil {
		t.Fatal(err)
	}
	return f.Energy / totalArea(tri)
}
