package flatten

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// capMap is the radius to which the least distorting round map takes polar
// angle t of a unit sphere's cap: a·tan(t/2) + P(t).
//
// Source: sin t·(sin t·r')' - r = sin t·(cos t - 1), the equation for the least
// of ∫ (r'-1)² + (r/sin t - 1)²; its solutions in closed form.
type capMap struct{ a float64 }

func capP(t float64) float64 {
	tan, c := math.Tan(t/2), math.Cos(t/2)
	s2 := math.Sin(t/2) * math.Sin(t/2)
	return (tan*math.Cos(t) - (4*math.Log(c)+2*s2)/tan) / 2
}

// heldRim has the rim at its own length: r(T) = sin T.
func heldRim(T float64) capMap { return capMap{(math.Sin(T) - capP(T)) / math.Tan(T/2)} }

// freeRim has nothing pulling at the rim: r'(T) = 1.
func freeRim(T float64) capMap {
	const h = 1e-5
	slope := (capP(T+h) - capP(T-h)) / (2 * h)
	c := math.Cos(T / 2)
	return capMap{(1 - slope) * 2 * c * c}
}

func (m capMap) at(t float64) float64 { return m.a*math.Tan(t/2) + capP(t) }

// perArea is energy over area, by Simpson's rule.
func (m capMap) perArea(T float64) float64 {
	const n, h = 2000, 1e-5
	f := func(t float64) float64 {
		if t < 1e-3 {
			return 0
		}
		radial := (m.at(t+h)-m.at(t-h))/(2*h) - 1
		hoop := m.at(t)/math.Sin(t) - 1
		return (radial*radial + hoop*hoop) * math.Sin(t)
	}
	sum := f(0) + f(T)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * f(T*float64(i)/n)
	}
	return sum * T / n / 3 / (1 - math.Cos(T))
}

func TestCapMap_isTheTable(t *testing.T) {
	// Source: the same values by other hands: the free rim of a hemisphere goes
	// to 2 ln 2 (checked elsewhere against two public ARAP programs), the held
	// rim's centre is squeezed by (ln 2)/2.
	near(t, "free rim of a hemisphere", freeRim(math.Pi/2).at(math.Pi/2), 2*math.Ln2, 1e-9)
	near(t, "held hemisphere's centre", heldRim(math.Pi/2).at(1e-3)/1e-3-1, -math.Ln2/2, 1e-5)
	for _, c := range []struct{ deg, free, held float64 }{
		{20, 7.812e-5, 5.373546e-4}, {30, 4.0053e-4, 2.695413e-3}, {45, 2.08687e-3, 1.335983e-2},
		{60, 6.86830e-3, 4.094683e-2}, {90, 0.03909397, 1.883173e-1},
	} {
		T := c.deg * degree
		near(t, "free energy", freeRim(T).perArea(T)/c.free, 1, 2e-4)
		near(t, "held energy", heldRim(T).perArea(T)/c.held, 1, 2e-4)
	}
}

func TestSolve_sphericalCaps_areTheClosedForm(t *testing.T) {
	for _, mesh := range []struct {
		n                   int
		energy, rim, factor float64
	}{
		{22, 0.005, 0.0015, 0.003},
		{44, 0.002, 0.0005, 0.001},
	} {
		for _, deg := range []float64{20, 30, 45, 60, 90} {
			T := deg * degree
			c := spherical(T, mesh.n)
			p, v := c.prepare(t), c.vertices()
			f, err := p.Solve(v, nil)
			if err != nil {
				t.Fatal(err)
			}
			name := fmt.Sprintf("%g° cap of %d triangles: ", deg, len(p.t))
			e, r := perArea(t, p, v, f), rimRadius(p, f)
			t.Logf("%s%d steps, energy %+.3f %%, rim %+.4f %%, swell %+.3f %%", name, f.Steps,
				100*(e/heldRim(T).perArea(T)-1), 100*(r/math.Sin(T)-1), 100*(f.Swell/(-2*math.Log(math.Cos(T/2)))-1))
			near(t, name+"energy", e/heldRim(T).perArea(T), 1, mesh.energy)
			near(t, name+"rim", r/math.Sin(T), 1, mesh.rim)
			near(t, name+"|u|max", f.Swell/(-2*math.Log(math.Cos(T/2))), 1, mesh.factor)
			if !f.Certified || f.Braced {
				t.Errorf("%scertified %v, braced %v", name, f.Certified, f.Braced)
			}
		}
	}
}

func TestSolveFree_sphericalCaps_areTheClosedForm(t *testing.T) {
	// Four corners of the square are pressed to 180°; they cost most where the
	// distortion is least, so the errors are judged by how they fall.
	for _, deg := range []float64{45, 60, 90} {
		T := deg * degree
		var off, rim [3]float64
		for i, n := range []int{22, 44, 88} {
			c := spherical(T, n)
			p, v := c.prepare(t), c.vertices()
			f, err := p.SolveFree(v)
			if err != nil {
				t.Fatal(err)
			}
			off[i] = perArea(t, p, v, f)/freeRim(T).perArea(T) - 1
			rim[i] = rimRadius(p, f)/freeRim(T).at(T) - 1
		}
		t.Logf("%g°: energy off by %+.3f, %+.3f, %+.3f %%, rim by %+.4f, %+.4f, %+.4f %%", deg,
			100*off[0], 100*off[1], 100*off[2], 100*rim[0], 100*rim[1], 100*rim[2])
		for i := 1; i < 3; i++ {
			if off[i] > off[i-1]/2.5 {
				t.Errorf("%g°: halving the edges takes the energy's error from %.5f to %.5f", deg, off[i-1], off[i])
			}
		}
		near(t, "energy", off[2], 0, 0.005)
		near(t, "rim", rim[2], 0, 0.0005)
	}
}

// rimRadius is the mean distance of the flat border from its middle.
func rimRadius(p *Patch, f *Formed) float64 {
	var middle r2.Vec
	for _, i := range p.border {
		middle = r2.Add(middle, r2.Scale(1/float64(len(p.border)), f.Flat[i]))
	}
	sum := 0.0
	for _, i := range p.border {
		sum += r2.Norm(r2.Sub(f.Flat[i], middle))
	}
	return sum / float64(len(p.border))
}
