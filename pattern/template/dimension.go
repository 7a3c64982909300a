package template

import "fmt"

// dim is what a value measures: mm to a power, rad to a power. Zero without a
// unit fits everywhere.
type dim struct {
	mm, rad int
	any     bool
}

var (
	plain  = dim{}
	length = dim{mm: 1}
	angle  = dim{rad: 1}
	zero   = dim{any: true}
)

// String is the dimension in a maker's words.
func (d dim) String() string {
	switch {
	case d.any || d == plain:
		return "a plain number"
	case d == length:
		return "a length"
	case d == angle:
		return "an angle"
	case d == dim{mm: 2}:
		return "an area"
	}
	return fmt.Sprintf("mm^%d·rad^%d", d.mm, d.rad)
}

// example shows how a value of the dimension is written.
func (d dim) example() string {
	switch d {
	case length:
		return "a length has a unit, as in 10 mm"
	case angle:
		return "an angle has a unit, as in 30 deg"
	case plain:
		return "a plain number has no unit, as in 0.5 or 3"
	}
	return ""
}

func (d dim) fits(want dim) bool { return d.any || d == want }

// joined is the dimension of a sum or of the larger of two.
func joined(a, b dim) (dim, bool) {
	switch {
	case a.any:
		return b, true
	case b.any || a == b:
		return a, true
	}
	return dim{}, false
}

func times(a, b dim, sign int) dim {
	if a.any { // 0 · x
		return a
	}
	return dim{mm: a.mm + sign*b.mm, rad: a.rad + sign*b.rad}
}
