package body

import (
	"sort"

	"gonum.org/v1/gonum/interp"
)

// knot is one station's section and where the middle of its widest line stands.
type knot struct {
	name    string // "" for a station that only shapes
	level   float64
	section Section
	x, z    float64
}

// loft is a surface through the sections at its knots: each of breadth, front,
// back, 1/exponent and place runs through the knots by a monotone cubic in the
// level. Beyond the end knots it goes on with the end section.
type loft struct {
	knots []knot
	curve [6]interp.FritschButland
}

// newLoft sorts the knots by level and joins them. At least two levels, all
// different: a repeated level is our bug.
func newLoft(knots []knot) *loft {
	sort.SliceStable(knots, func(i, j int) bool { return knots[i].level < knots[j].level })
	l := &loft{knots: knots}
	levels := make([]float64, len(knots))
	for i, k := range knots {
		levels[i] = k.level
	}
	values := make([]float64, len(knots))
	for c := range l.curve {
		for i, k := range knots {
			values[i] = [6]float64{k.section.Breadth, k.section.Front, k.section.Back, 1 / k.section.Exponent, k.x, k.z}[c]
		}
		if err := l.curve[c].Fit(levels, values); err != nil {
			panic("body: a loft with knots at one level: " + err.Error())
		}
	}
	return l
}

// at is the section at a level and the place of its origin.
func (l *loft) at(level float64) (s Section, x, z float64) {
	var v [6]float64
	for c := range l.curve {
		v[c] = l.curve[c].Predict(level)
	}
	return Section{v[0], v[1], v[2], 1 / v[3]}, v[4], v[5]
}

// ends are the levels of the first and last knots.
func (l *loft) ends() (low, high float64) {
	return l.knots[0].level, l.knots[len(l.knots)-1].level
}
