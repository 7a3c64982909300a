package body

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"tasset/internal/report"
)

// Estimate brings tape entries and what photographs told together with the
// survey. What was measured is used as measured: the precision-weighted mean of
// its own observations. What was not is the conditional mean of the survey's
// log-normal model given those observations, with its conditional deviation.
// The findings doubt entries that look like slips and say where the survey does
// not reach. An error means an entry that cannot be of a person, or that cannot
// be understood; it names all of them.
func Estimate(s *Survey, tape Tape, seen *Seen) (*Measurements, []report.Finding, error) {
	entries, findings, err := admit(s, tape)
	if err != nil {
		return nil, nil, err
	}
	if seen, err = seen.onSkin(tape.Layers); err != nil {
		return nil, nil, err
	}
	o, more, err := observe(entries, seen)
	if err != nil {
		return nil, nil, err
	}
	findings = append(findings, more...)
	model := s.model(tape.Sex)
	e := s.evidence(model, o)
	c := model.given(e)
	reach := s.reach(tape, o, c)
	rest, more := oneShare(s, model, o, tape.Age, reach.widen)
	findings = append(findings, more...)
	findings = append(findings, slips(s, model, rest, entries, reach)...)
	findings = append(findings, impossible(o)...)
	findings = append(findings, reach.findings...)
	m := s.assemble(tape.Sex, o, e, c, reach)
	return m, append(findings, oddRatios(m, entries)...), nil
}

// assemble makes the joint result: measured values first, then the estimates,
// whose errors are widened as the survey's reach says.
func (s *Survey) assemble(sex Sex, o observed, e *evidence, c conditional, reach reach) *Measurements {
	values := o.sides
	names := append([]Name(nil), o.names...)
	var of []int // rows of the model that are estimated
	for i, n := range s.names {
		if _, measured := o.origin[n]; !measured {
			names, of = append(names, n), append(of, i)
		}
	}
	cov := mat.NewSymDense(len(names), nil)
	for i, n := range o.names {
		m := o.origin[n]
		m.Side, m.Value, m.SD = Both, o.values[i], math.Sqrt(o.cov.At(i, i))
		values[place{n, Both}] = m
		for j := i; j < len(o.names); j++ {
			cov.SetSym(i, j, o.cov.At(i, j))
		}
	}
	s.addEstimates(values, cov, o, e, c, of, reach)
	return collect(sex, values, names, cov)
}

// addEstimates fills in the estimated rows: moments of the log-normal, that is
// mean exp(μ + σ²/2) and covariance mean·mean·(exp(c) − 1).
func (s *Survey) addEstimates(values map[place]Measurement, cov *mat.SymDense, o observed, e *evidence, c conditional, of []int, reach reach) {
	base := len(o.names)
	value, wider := make([]float64, len(of)), make([]float64, len(of))
	for a, i := range of {
		value[a] = math.Exp(c.mean[i] + c.cov.At(i, i)/2)
		rel := math.Sqrt(math.Expm1(c.cov.At(i, i)))
		wider[a] = reach.factor(s.names[i], rel)
		values[place{s.names[i], Both}] = Measurement{Name: s.names[i], Value: value[a], SD: wider[a] * rel * value[a]}
		for b := 0; b <= a; b++ {
			cov.SetSym(base+a, base+b, wider[a]*wider[b]*value[a]*value[b]*math.Expm1(c.cov.At(i, of[b])))
		}
	}
	if e == nil {
		return
	}
	rowOf := map[int]int{} // evidence's row by the model's
	for k, r := range e.rows {
		rowOf[r] = k
	}
	for j, n := range o.names {
		r, known := s.row[n]
		if !known {
			continue
		}
		for a, i := range of {
			cov.SetSym(base+a, j, wider[a]*value[a]*o.values[j]*c.cross.At(i, rowOf[r]))
		}
	}
}
