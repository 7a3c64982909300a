package body

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"tasset/internal/report"
)

// shareDeviations: photographed sizes that are all off by one share of this many
// deviations are doubted, as single measurements are (slipDeviations), but a little
// earlier: a head is large or small as a whole, so that few sizes at odds do not
// hide it. Judgement; of surveyed heads it doubts 0.06 % where the rulers are right,
// 99 % where 254 mm were read for 300, and 63 % where 330 were.
const (
	shareDeviations = 3.5
	surelyShare     = 4.5 // above this it is a problem
)

// oneShare doubts photographed sizes, of the head or of the rest, that are all too
// large or too small by one share: so does a ruler whose length was read wrong in
// every picture, and they do not contradict each other. The share δ is the
// generalised least squares estimate in d = δu + e, u being 1 where photographs
// speak: u'P d / u'P u with variance 1/u'P u, P the inverse of the evidence's
// covariance. Source: Aitken 1935, or any text on linear models.
//
// Beside the findings stands what was observed without those sizes: they would
// make all others look wrong. Children are not judged by the survey's people.
func oneShare(s *Survey, m normal, o observed, age, widen float64) (observed, []report.Finding) {
	e := s.evidence(m, o)
	if e == nil || age > 0 && age < grownAge {
		return o, nil
	}
	rest := o
	var out []report.Finding
	for _, head := range []bool{true, false} {
		u, some := mat.NewVecDense(len(e.rows), nil), 0
		for a, r := range e.rows {
			d, _ := Describe(s.names[r])
			if o.origin[d.Name].Origin == Photographed && (d.Region == Head) == head {
				u.SetVec(a, 1)
				some++
			}
		}
		if some < 2 {
			continue
		}
		var pu mat.VecDense
		if err := e.chol.SolveVecTo(&pu, u); err != nil {
			panic(err) // a condition number that the model and a tape's noise cannot give
		}
		weight := mat.Dot(u, &pu)
		share := mat.Dot(&pu, e.dev) / weight
		z := math.Abs(share) * math.Sqrt(weight) / widen
		if z <= shareDeviations {
			continue
		}
		out = append(out, tooFar(head, math.Expm1(share), z))
		for a, r := range e.rows {
			if u.AtVec(a) > 0 {
				rest = rest.without(s.names[r])
			}
		}
	}
	return rest, out
}

// tooFar says that all photographed sizes of a part are off by a share of z
// deviations.
func tooFar(head bool, share, z float64) report.Finding {
	of, smaller := "body", "smaller"
	if head {
		of = "head"
	}
	if share > 0 {
		smaller = "larger"
	}
	f := report.Doubtf(of+" photographs", "All sizes that they tell are together about %.0f %% %s than those of people of the survey who are like this one in all else.", 100*math.Abs(share), smaller)
	if z > surelyShare {
		f.Level = report.Problem
	}
	f.Perhaps = "Every ruler's length may be wrong by that share: look at the figures between which they were marked, or tape one of the sizes."
	return f
}
