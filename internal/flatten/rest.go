package flatten

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// element is a triangle at rest, in the order of sorted. A map of it into the
// plane is f(w) = a·w + b·conj(w) with a = ½ Σ z·conj(g) and b = ½ Σ z·g over
// its corners: a turns and scales, b distorts. Its singular values are |a| ± |b|.
type element struct {
	at    [3]int
	area  float64
	g     [3]complex128 // gradients of the corners' hat functions
	angle [3]float64
	// Products that the second derivatives need, by pairs (0,0) (1,1) (2,2)
	// (1,0) (2,1) (2,0): area·g_j·conj(g_k), area·g_j·g_k.
	turn, skew [6]complex128
}

// pairs are the pairs of corners whose blocks lie on or below the diagonal.
var pairs = [6][2]int{{0, 0}, {1, 1}, {2, 2}, {1, 0}, {2, 1}, {2, 0}}

// slender (rounding): a triangle whose height is this part of its longest side
// has lost the digits that flattening needs.
const slender = 1e-9

// atRest computes the triangles of a panel whose vertices are at v.
func (p *Patch) atRest(v []r3.Vec) ([]element, error) {
	if len(v) != len(p.place) {
		return nil, fmt.Errorf("the panel was prepared for %d points and is given %d", len(p.place), len(v))
	}
	for i, at := range v {
		if s := at.X + at.Y + at.Z; math.IsNaN(s) || math.IsInf(s, 0) {
			return nil, fmt.Errorf("point %d of the panel is at %v, not a place", i, at)
		}
	}
	out := make([]element, len(p.t))
	for k, t := range p.t {
		w, area, long := lay(v[t[0]], v[t[1]], v[t[2]])
		if area <= slender*long*long {
			return nil, fmt.Errorf("triangle %d of the panel (points %d, %d, %d) near %.1f, %.1f, %.1f mm has no area", k, t[0], t[1], t[2], v[t[0]].X, v[t[0]].Y, v[t[0]].Z)
		}
		out[k] = newElement(p.sorted[k], w, area)
	}
	return out, nil
}

// lay is a triangle in its own plane, its area and its longest side.
func lay(a, b, c r3.Vec) (w [3]complex128, area, long float64) {
	ab, ac := r3.Sub(b, a), r3.Sub(c, a)
	base := math.Sqrt(r3.Norm2(ab))
	twice := math.Sqrt(r3.Norm2(r3.Cross(ab, ac)))
	if base > 0 {
		w[1] = complex(base, 0)
		w[2] = complex(r3.Dot(ab, ac)/base, twice/base)
	}
	return w, twice / 2, max(base, geom.Dist(a, c), geom.Dist(b, c))
}

func newElement(s sorted, w [3]complex128, area float64) element {
	e := element{at: s.at, area: area}
	for i, c := range s.corner {
		to, back := w[(c+1)%3]-w[c], w[(c+2)%3]-w[c]
		e.g[i] = 1i * (back - to) / complex(2*area, 0)
		e.angle[i] = math.Atan2(2*area, real(to)*real(back)+imag(to)*imag(back))
	}
	for i, jk := range pairs {
		gj, gk := e.g[jk[0]], e.g[jk[1]]
		e.turn[i] = complex(area, 0) * gj * conj(gk)
		e.skew[i] = complex(area, 0) * gj * gk
	}
	return e
}

// parts are a and b of the map that brings the corners to z.
func (e *element) parts(z []complex128) (a, b complex128) {
	for i, at := range e.at {
		a += z[at] * conj(e.g[i])
		b += z[at] * e.g[i]
	}
	return complex(real(a)/2, imag(a)/2), complex(real(b)/2, imag(b)/2)
}

func conj(z complex128) complex128 { return complex(real(z), -imag(z)) }

func abs(z complex128) float64 { return math.Sqrt(real(z)*real(z) + imag(z)*imag(z)) }

func dot(a, b complex128) float64 { return real(a)*real(b) + imag(a)*imag(b) }

// unit is a turn by an angle.
func unit(angle float64) complex128 {
	s, c := math.Sincos(angle)
	return complex(c, s)
}
