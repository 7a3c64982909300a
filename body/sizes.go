package body

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// sizes reads measurements for the form and remembers the ones that are not
// known, so that one error can name them all.
type sizes struct {
	m       *Measurements
	missing []Name
}

// mm is the value of a measurement, in mm (kg for weight). A missing one counts
// as 1 until err is asked.
func (s *sizes) mm(n Name, side Side) float64 {
	x, ok := s.m.Get(n, side)
	switch {
	case !ok || !(x.Value > 0) || math.IsInf(x.Value, 0):
		if !slices.Contains(s.missing, n) {
			s.missing = append(s.missing, n)
		}
		return 1
	}
	return x.Value
}

// measured is a girth that the survey lacks, where somebody has measured it.
func (s *sizes) measured(n Name, side Side) (float64, bool) {
	x, ok := s.m.Get(n, side)
	return x.Value, ok && x.Origin != Estimated
}

// lessCertain is the one of two measurements to give up first: the one with the
// larger share of doubt, the first if they are alike.
func (s *sizes) lessCertain(a, b Name) Name {
	x, _ := s.m.Get(a, Both)
	y, _ := s.m.Get(b, Both)
	if y.SD/y.Value > x.SD/x.Value+1e-12 {
		return b
	}
	return a
}

// bySex is a figure that the survey, or the bodies that set the defaults, give
// for men and women apart; not stated is half-way.
func (s *sizes) bySex(man, woman float64) float64 {
	switch s.m.Sex() {
	case Man:
		return man
	case Woman:
		return woman
	}
	return (man + woman) / 2
}

func (s *sizes) err() error {
	if len(s.missing) == 0 {
		return nil
	}
	var names []string
	for _, n := range s.missing {
		names = append(names, string(n))
	}
	return fmt.Errorf("the body form needs %s, and no value greater than 0 is known; measure it, or estimate it from the survey",
		strings.Join(names, ", "))
}
