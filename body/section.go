package body

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
)

// Exponents of a section are kept between these: below, a section is nearly a
// rhombus and above nearly a rectangle, and no tape finds either on a body.
const (
	minExponent = 1.6
	maxExponent = 6.0
)

// Section is a closed convex curve that models what a tape touches: a
// superellipse whose front and back have their own depth,
//
//	|x/(b/2)|ⁿ + |z/d|ⁿ = 1,  d = Front where z ≥ 0, Back where z < 0.
//
// The origin is on the widest line; x is to the wearer's left, z forward. It is
// convex for exponents of at least 1 and has no corner above 1. Lengths are mm.
type Section struct {
	Breadth  float64
	Front    float64
	Back     float64
	Exponent float64
}

// split makes a section of a breadth, a depth and the share of the depth that
// lies in front of the widest line.
func split(breadth, depth, front, exponent float64) Section {
	return Section{breadth, front * depth, (1 - front) * depth, exponent}
}

// Depth is the whole depth, front to back.
func (s Section) Depth() float64 { return s.Front + s.Back }

// Scaled is the section grown or shrunk about its origin; its girth grows alike.
func (s Section) Scaled(k float64) Section {
	return Section{s.Breadth * k, s.Front * k, s.Back * k, s.Exponent}
}

// At is the point in the polar direction (sin angle, cos angle): 0 is forward,
// positive towards +x. X of the result is x, Y is z.
func (s Section) At(angle float64) r2.Vec {
	sin, cos := math.Sincos(angle)
	depth := s.Front
	if cos < 0 {
		depth = s.Back
	}
	u, v := math.Abs(sin)/(s.Breadth/2), math.Abs(cos)/depth
	r := powerMean(u, v, s.Exponent)
	return r2.Vec{X: sin / r, Y: cos / r}
}

// powerMean is (uⁿ + vⁿ)^(1/n) without overflow.
func powerMean(u, v, n float64) float64 {
	low, high := min(u, v), max(u, v)
	if low == 0 {
		return high
	}
	return high * math.Pow(1+math.Pow(low/high, n), 1/n)
}

// Area is the area inside. Source: the superellipse's area by gamma functions,
// b·d·Γ(1+1/n)²/Γ(1+2/n), which no split changes.
func (s Section) Area() float64 {
	g1, g2 := math.Gamma(1+1/s.Exponent), math.Gamma(1+2/s.Exponent)
	return s.Breadth * s.Depth() * g1 * g1 / g2
}

// Girth is the length of the curve, to about 2e-8 of itself for exponents 1.5
// to 6. It is the integral of the support function over all directions
// (Cauchy's formula), which is smooth where the curve itself is not.
func (s Section) Girth() float64 {
	half := s.Breadth / 2
	return 2 * (quarter(half, s.Front, s.Exponent) + quarter(half, s.Back, s.Exponent))
}

// quarter is the length of one quarter of a superellipse with half axes a, d.
func quarter(a, d, n float64) float64 {
	if n == 1 {
		return math.Hypot(a, d)
	}
	q := n / (n - 1) // the support function of an n-norm ball is the dual norm
	corner := math.Atan2(a, d)
	var sum float64
	for i, x := range nodes {
		for _, span := range [2][2]float64{{0, corner}, {corner, math.Pi / 2}} {
			sin, cos := math.Sincos(span[0] + x*(span[1]-span[0]))
			sum += weights[i] * (span[1] - span[0]) * powerMean(a*cos, d*sin, q)
		}
	}
	return sum
}

// nodes and weights are the Gauss rule on [0, 1] of quarter: 24 points on each
// side of the corner.
var nodes, weights = gauss(24)

func gauss(n int) (x, w []float64) {
	x, w = make([]float64, n), make([]float64, n)
	quad.Legendre{}.FixedLocations(x, w, 0, 1)
	return x, w
}

// withGirth is the section of the same proportions that has a given girth.
func (s Section) withGirth(girth float64) Section { return s.Scaled(girth / s.Girth()) }
