package body

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
	"tasset/internal/units"
)

// farthest is how many deviations of the survey's logarithms a size may lie
// from its mean and still be somebody's; the very small and very large are kept.
const farthest = 12

// Head girths outside this range are rare: 500 to 635 mm is all that the survey
// has seen among its 6068 people.
const headGirthLow, headGirthHigh = 510, 640

// admit checks the entries one by one, gives each its deviation, and takes off
// what it was taken over.
func admit(s *Survey, tape Tape) ([]Entry, []report.Finding, error) {
	var entries []Entry
	var findings []report.Finding
	var errs []error
	if tape.Age < 0 || tape.Age > 120 || math.IsNaN(tape.Age) {
		errs = append(errs, fmt.Errorf("age is %g years; write a number from 1 to 120, or leave it out", tape.Age))
	}
	for _, e := range tape.Entries {
		if err := understand(e); err != nil {
			errs = append(errs, err)
			continue
		}
		d, _ := Describe(e.Name)
		if e.SD == 0 {
			e.SD = d.TapeSD
		}
		e, more, err := skin(e, tape.Layers)
		if err == nil {
			err = s.plausible(d, e)
		}
		if err != nil {
			errs = append(errs, err)
			continue
		}
		findings = append(findings, more...)
		if tape.grown() {
			findings = append(findings, rareHead(e)...)
		}
		entries = append(entries, e)
	}
	return entries, findings, errors.Join(errs...)
}

// understand refuses an entry that says nothing about a body.
func understand(e Entry) error {
	d, ok := Describe(e.Name)
	switch {
	case !ok:
		if near := Suggest(string(e.Name)); near != "" {
			return fmt.Errorf("%s is no measurement that is known here; did you mean %q?", entryName(e), near)
		}
		return fmt.Errorf("%s is no measurement that is known here", entryName(e))
	case e.Side != Both && !d.Sided:
		return fmt.Errorf("%s has no side; write it as %q alone", entryName(e), e.Name)
	case !(e.Value > 0) || math.IsInf(e.Value, 0):
		return fmt.Errorf("%s is %s; write a size above zero", entryName(e), typed(e))
	case !(e.SD >= 0) || math.IsInf(e.SD, 0):
		return fmt.Errorf("%s has a deviation of %g %s; write one above zero, or leave it out", entryName(e), e.SD, d.Unit())
	}
	return nil
}

// plausible refuses a size that is nobody's, and names what was probably meant.
func (s *Survey) plausible(d Description, e Entry) error {
	low, high := s.limits(d)
	if e.Value >= low && e.Value <= high {
		return nil
	}
	nobodys := fmt.Sprintf("%s is %s, but people have %s", entryName(e), typed(e), between(e, low, high))
	for _, r := range readings(e, d) {
		if r.value >= s.usual(d, -3, low) && r.value <= s.usual(d, 3, high) {
			return fmt.Errorf("%s; perhaps %s was meant", nobodys, r.text)
		}
	}
	return fmt.Errorf("%s; measure it again", nobodys)
}

// limits is from the smallest to the largest size that an entry may give.
func (s *Survey) limits(d Description) (low, high float64) {
	if d.High > 0 {
		return d.Low, d.High
	}
	return s.usual(d, -farthest, 0), s.usual(d, farthest, math.Inf(1))
}

// usual is the size so many deviations from the mean of people of either sex,
// or the given one where the survey has none.
func (s *Survey) usual(d Description, deviations, otherwise float64) float64 {
	i, ok := s.row[d.Name]
	if !ok {
		return otherwise
	}
	return math.Exp(s.all.mean[i] + deviations*math.Sqrt(s.all.cov.At(i, i)))
}

// typedIn is the unit in which a size was typed; mm if none was.
func typedIn(e Entry) units.Unit {
	word := strings.TrimLeft(e.Typed, "0123456789.,/ ½¼¾⅛⅜⅝⅞")
	if u, err := units.ParseUnit(word); err == nil {
		return u
	}
	return units.MM
}

// rareHead doubts head girths that hardly anyone has: a head girth governs more
// pieces than any other size.
func rareHead(e Entry) []report.Finding {
	if e.Name != "head girth" || (e.Value >= headGirthLow && e.Value <= headGirthHigh) {
		return nil
	}
	low, high := units.Format(headGirthLow, typedIn(e)), units.Format(headGirthHigh, typedIn(e))
	f := report.Doubtf("head girth", "%s is rare; nearly all grown heads are between %s and %s round.", typed(e), low, high)
	f.Where, f.Perhaps = e.Where, "Measure it again."
	return []report.Finding{f}
}
