package body

import "math"

// root finds where f changes sign between lo and hi by the Illinois form of
// false position, to within tol of f or 60 steps. The signs must differ.
func root(f func(float64) float64, lo, hi, tol float64) float64 {
	flo, fhi := f(lo), f(hi)
	x := lo
	for range 60 {
		x = hi - fhi*(hi-lo)/(fhi-flo)
		fx := f(x)
		switch {
		case math.Abs(fx) < tol:
			return x
		case (fx < 0) != (fhi < 0):
			lo, flo = hi, fhi
		default:
			flo /= 2
		}
		hi, fhi = x, fx
	}
	return x
}

// girthTol is how near a solved section's girth comes to the asked one: far
// below a tape's mark, far above what the quadrature loses.
const girthTol = 1e-7 // mm

// solveExponent is the section of a breadth, a depth and a split that has the
// girth; ok is false where no exponent within the limits gives it, and the
// exponent is then at the nearer limit.
func solveExponent(girth, breadth, depth, front float64) (s Section, ok bool) {
	at := func(inverse float64) Section { return split(breadth, depth, front, 1/inverse) }
	over := func(inverse float64) float64 { return at(inverse).Girth() - girth }
	squarest, slimmest := 1/maxExponent, 1/minExponent
	switch {
	case over(squarest) <= 0:
		return at(squarest), over(squarest) == 0
	case over(slimmest) >= 0:
		return at(slimmest), over(slimmest) == 0
	}
	return at(root(over, squarest, slimmest, girthTol)), true
}

// solveBreadth is the section of a depth and an exponent whose breadth makes
// the girth; ok is false where the depth alone is more than the girth allows.
func solveBreadth(girth, depth, front, exponent float64) (s Section, ok bool) {
	over := func(b float64) float64 { return split(b, depth, front, exponent).Girth() - girth }
	if over(1e-3*girth) >= 0 {
		return Section{}, false
	}
	// A flat strip of breadth b has girth 2b at least, so girth/2 is enough.
	b := root(over, 1e-3*girth, girth/2, girthTol)
	return split(b, depth, front, exponent), true
}

// solveDepth is the section of a breadth and an exponent whose depth makes the
// girth; ok is false where the breadth alone is more than the girth allows.
func solveDepth(girth, breadth, front, exponent float64) (s Section, ok bool) {
	over := func(d float64) float64 { return split(breadth, d, front, exponent).Girth() - girth }
	if over(1e-3*girth) >= 0 {
		return Section{}, false
	}
	d := root(over, 1e-3*girth, girth/2, girthTol)
	return split(breadth, d, front, exponent), true
}

// roundSection is a section of a girth, given how deep it is for its breadth.
func roundSection(girth, depthPerBreadth, front, exponent float64) Section {
	return split(1, depthPerBreadth, front, exponent).withGirth(girth)
}
