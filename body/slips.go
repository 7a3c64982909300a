package body

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/mat"

	"tasset/internal/report"
	"tasset/internal/units"
)

// A measurement so many deviations from what the others say of it is looked at;
// another reading of it within so many is named. Both are judged in logarithms.
const (
	slipDeviations = 4
	readDeviations = 2
)

// slips doubts measurements that the others contradict, the worst first. Each
// is judged by all others; one found is left out of judging the rest, because it
// drags their predictions along.
func slips(s *Survey, m normal, o observed, entries []Entry, r reach) []report.Finding {
	var findings []report.Finding
	for len(o.names) > 1 {
		e := s.evidence(m, o)
		if e == nil {
			break
		}
		worst := pick(leaveOneOut(s, e, o, entries, r.widen), r)
		if worst.name == "" {
			break
		}
		findings = append(findings, worst.finding())
		o = o.without(worst.name)
	}
	return findings
}

// suspect is one measurement as the others see it.
type suspect struct {
	name     Name
	entry    Entry // as typed; the zero value if only photographs tell it
	z        float64
	low      float64 // 95 % interval that the others give, mm or kg
	high     float64
	probably string // another reading, if one fits
}

// leaveOneOut predicts each measurement from all others: with P the inverse of
// the evidence's covariance, the prediction's error is (P d)ᵢ/Pᵢᵢ and its
// variance 1/Pᵢᵢ. Source: Rasmussen & Williams, Gaussian Processes for Machine
// Learning, equation 5.12.
func leaveOneOut(s *Survey, e *evidence, o observed, entries []Entry, widen float64) []suspect {
	var p mat.SymDense
	if err := e.chol.InverseTo(&p); err != nil {
		panic(err) // a condition number that the model and a tape's noise cannot give
	}
	var pd mat.VecDense
	pd.MulVec(&p, e.dev)
	var out []suspect
	for a, r := range e.rows {
		n := s.names[r]
		sd := widen / math.Sqrt(p.At(a, a))
		off := pd.AtVec(a) / p.At(a, a)
		expected := math.Log(o.value(n)) - off
		x := suspect{name: n, z: off / sd, low: math.Exp(expected - 1.96*sd), high: math.Exp(expected + 1.96*sd)}
		if math.Abs(x.z) > slipDeviations {
			x.read(entries, func(v float64) float64 { return (math.Log(v) - expected) / sd })
		}
		out = append(out, x)
	}
	return out
}

// read finds the entry that is farthest off, and the first other reading of it
// that fits.
func (x *suspect) read(entries []Entry, z func(float64) float64) {
	far := -1.0
	for _, e := range entries {
		if e.Name == x.name && math.Abs(z(e.Value)) > far {
			x.entry, far = e, math.Abs(z(e.Value))
		}
	}
	if x.entry.Name == "" {
		return
	}
	d, _ := Describe(x.name)
	for _, r := range readings(x.entry, d) {
		if r.value > 0 && math.Abs(z(r.value)) < readDeviations {
			x.probably = r.text
			return
		}
	}
}

// pick is the suspect farthest off. Two measurements alone contradict each other
// equally: then the one of which another reading fits is the suspect.
func pick(all []suspect, r reach) suspect {
	var worst suspect
	for _, x := range all {
		if !r.slip(x) {
			continue
		}
		farther := math.Abs(x.z) - math.Abs(worst.z)
		if farther > 0.5 || (farther > -0.5 && x.probably != "" && worst.probably == "") {
			worst = x
		}
	}
	return worst
}

func (x suspect) finding() report.Finding {
	e := x.entry
	if e.Name == "" {
		f := report.Doubtf(string(x.name), "What the photographs say is far from what the other measurements say (%.0f to %.0f mm).", x.low, x.high)
		f.Perhaps = "Measure it with a tape."
		return f
	}
	f := report.Doubtf(subject(e.Name, e.Side), "%s is far from what the other measurements say of it (%s).", typed(e), between(e, x.low, x.high))
	f.Where, f.Perhaps = e.Where, "Measure it again; if it is right, look at the others."
	if x.probably != "" {
		f.Perhaps = fmt.Sprintf("Was %s meant?", x.probably)
	}
	return f
}

// between writes a range in the unit that an entry was typed in.
func between(e Entry, low, high float64) string {
	if strings.Contains(e.Typed, "ft") || strings.Contains(e.Typed, "'") {
		return units.Format(low, units.Inch) + " to " + units.Format(high, units.Inch)
	}
	if _, unit := splitTyped(e); unit.sign == "kg" || unit.sign == "lb" {
		return fmt.Sprintf("%.0f to %.0f %s", low/unit.per, high/unit.per, unit.sign)
	} else if u, err := units.ParseUnit(unit.sign); err == nil {
		return units.Format(low, u) + " to " + units.Format(high, u)
	}
	return fmt.Sprintf("%.0f to %.0f mm", low, high)
}

// value is an observed value; the name must be among the names.
func (o observed) value(n Name) float64 {
	for i, m := range o.names {
		if m == n {
			return o.values[i]
		}
	}
	panic("not observed: " + string(n))
}

// without is what was observed but for one name.
func (o observed) without(n Name) observed {
	var out observed
	var keep []int
	for i, m := range o.names {
		if m != n {
			keep = append(keep, i)
			out.names, out.values = append(out.names, m), append(out.values, o.values[i])
		}
	}
	if len(keep) > 0 {
		out.cov = mat.NewSymDense(len(keep), nil)
	}
	for a, i := range keep {
		for b, j := range keep[:a+1] {
			out.cov.SetSym(a, b, o.cov.At(i, j))
		}
	}
	return out
}
