package photo

import (
	"math"
	"slices"
)

// mat2 is a symmetric matrix [a b; b c].
type mat2 struct{ a, b, c float64 }

func (m mat2) times(o mat2) mat2 { // of two that commute
	return mat2{m.a*o.a + m.b*o.b, m.a*o.b + m.b*o.c, m.b*o.b + m.c*o.c}
}

func (m mat2) inverse() mat2 {
	det := m.a*m.c - m.b*m.b
	return mat2{m.c / det, -m.b / det, m.a / det}
}

// plus is 1 + k·m.
func (m mat2) plus(k float64) mat2 { return mat2{1 + k*m.a, k * m.b, 1 + k*m.c} }

// influence is J·C·J' of two rows: the covariance of what is fitted to them, in
// their own deviations. C is the covariance of the unknowns.
func (m *minimum) influence(row int) mat2 {
	at := func(i, j int) (sum float64) {
		ci, vi := m.rows.terms(row + i)
		cj, vj := m.rows.terms(row + j)
		for k, c := range ci {
			for l, d := range cj {
				sum += vi[k] * vj[l] * m.cov.At(c, d)
			}
		}
		return sum
	}
	return mat2{at(0, 0), at(0, 1), at(1, 1)}
}

// judged is how two rows with weight w agree with all other rows. With A their
// influence and S = 1 - wA, their residual r, had they not been there, would be
// S⁻¹r with covariance 1 + A·S⁻¹: the mark's own, and that of what the others
// expect. All of these commute.
type judged struct {
	r    [2]float64
	a, s mat2
	own  float64 // variance of the mark itself
	rest mat2    // own·S + A
}

func (m *minimum) judge(row int, w float64) judged {
	a := m.influence(row)
	return judged{r: [2]float64{m.rows.res[row], m.rows.res[row+1]}, a: a, s: a.plus(-w)}.of(1)
}

// of is the same for a mark with another variance of its own.
func (j judged) of(own float64) judged {
	j.own, j.rest = own, mat2{own*j.s.a + j.a.a, own*j.s.b + j.a.b, own*j.s.c + j.a.c}
	return j
}

// both judges the two rows as a pair: the squared distance from what the others
// expect, in deviations, and how much of it they can tell (0 to 1).
func (j judged) both() (surprise, redundancy float64) {
	q := j.s.times(j.rest).inverse()
	known := j.s.times(j.rest.inverse())
	return j.r[0]*j.r[0]*q.a + 2*j.r[0]*j.r[1]*q.b + j.r[1]*j.r[1]*q.c, j.own * (known.a + known.c) / 2
}

// one judges a single row, whatever the other is.
func (j judged) one(i int) (surprise, redundancy float64) {
	s, rest := j.s.a, j.rest.a
	if i == 1 {
		s, rest = j.s.c, j.rest.c
	}
	return j.r[i] * j.r[i] / (s * rest), j.own * s / rest
}

// Variance of residuals in the sum over both rows, if marks are as expected.
func (j judged) expected() float64 {
	c := j.s.times(j.rest)
	return c.a + c.c
}

// What is known of a maker's hand before any mark is seen counts as much as this
// many checked coordinates, so that a few marks that agree by chance do not make
// all deviations small. Judgement.
const handPrior = 2

// clip bounds what one mark says of the hand, in its expected square: 1 good
// mark in 150 is above it. A mark above slip counts as a slip of the hand and
// says nothing: where few marks check each other, its own expected square, which
// grows as the search gives it up, would outweigh all others.
const (
	clip = 5
	slip = 25
)

// measureSpread is how far marks are off against what was expected (the square
// root of the variance factor): both ways, because a maker who takes care earns
// narrower intervals as much as a hasty one needs wider.
func (m *model) measureSpread(best *minimum) float64 {
	var squares, expected []float64
	for i, b := range best.rows.blocks {
		if !b.observed {
			continue
		}
		for row := b.from; row < b.to; row += 2 {
			j := best.judge(row, best.weights[i])
			squares, expected = append(squares, j.r[0]*j.r[0]+j.r[1]*j.r[1]), append(expected, j.expected())
		}
	}
	factor := max(1, medianRatio(squares, expected))
	for range 10 {
		sum, count := float64(handPrior), float64(handPrior)
		for i, s := range squares {
			if s < slip*max(1, factor)*expected[i] {
				sum, count = sum+min(s, clip*factor*expected[i]), count+expected[i]
			}
		}
		factor = sum / count
	}
	return math.Sqrt(factor)
}

// medianRatio is the median of squares over what was expected, scaled so that it
// is 1 for marks as expected: a pair of normal errors has its median at ln 2.
func medianRatio(squares, expected []float64) float64 {
	var ratios []float64
	for i, s := range squares {
		if expected[i] > .05 { // less is checked by nothing
			ratios = append(ratios, s/expected[i])
		}
	}
	if len(ratios) == 0 {
		return 1
	}
	slices.Sort(ratios)
	return ratios[len(ratios)/2] / math.Ln2
}

// expects is the residual that the rows would have, had they not been there.
func (j judged) expects() (u, v float64) {
	q := j.s.inverse()
	return q.a*j.r[0] + q.b*j.r[1], q.b*j.r[0] + q.c*j.r[1]
}

// hand is a mark's variance as it is usual at least, in that of the marks as they
// are: of a hand that happens to be steady, small slips are no blunders.
func (s *Subject) hand() float64 { return max(1, 1/(s.Spread*s.Spread)) }

// usual is the minimum as it would be if all marks were as good as they usually
// are, and none a slip. What checks what is told by it: it hangs on the pictures
// and not on luck. Among marks that happen to be good, priors would seem to check
// nothing, among bad ones everything.
func (m *model) usual(best *minimum) (*minimum, error) {
	at := *m
	at.spread = 1
	u := evaluate(&at, best.x, &minimum{})
	for i := range u.weights {
		u.weights[i] = 1
	}
	n := newNormal(m.n)
	n.set(&u.rows, u.weights)
	var err error
	u.cov, err = n.inverse()
	return u, err
}

// addFits judges every mark.
func (s *Subject) addFits(usual *minimum) {
	for i, v := range s.model.views {
		scale := math.Exp(s.best.x[v.at+3]) / s.Cameras[i].Focal // mm per px
		for k, g := range v.sights {
			b := v.marks[k]
			j := s.best.judge(s.best.rows.blocks[b].from, s.best.weights[b])
			l := s.model.fig.landmarks[g.landmark]
			f := Fit{Shot: i, Mark: g.mark, Name: l.Name}
			u, w := j.expects()
			f.Expected = Pixel{g.at.X + u*g.su*s.Spread, g.at.Y + w*g.sv*s.Spread}
			across, down := j.r[0]*g.su*s.Spread*scale, j.r[1]*g.sv*s.Spread*scale
			j = j.of(s.hand())
			checks := usual.judge(usual.rows.blocks[b].from, 1)
			switch l.rim {
			case noAxis:
				f.MM = math.Hypot(across, down)
				f.Surprise, _ = j.both()
				_, f.Redundancy = checks.both()
			case uAxis:
				f.MM = math.Abs(across)
				f.Surprise, _ = j.one(0)
				_, f.Redundancy = checks.one(0)
			case vAxis:
				f.MM = math.Abs(down)
				f.Surprise, _ = j.one(1)
				_, f.Redundancy = checks.one(1)
			}
			f.Redundancy = min(max(f.Redundancy, 0), 1) // rounding, where marks are absurd
			f.Surprise = max(f.Surprise, 0)
			s.Fits = append(s.Fits, f)
		}
	}
}
