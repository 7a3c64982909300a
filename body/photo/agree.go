package photo

import (
	"context"
	"fmt"
	"math"
	"slices"

	"tasset/internal/report"
)

// verdict is what comes of rulers, cards and taped distances that contradict each
// other.
type verdict struct {
	said   []report.Finding
	open   bool     // nothing tells which of them is right
	blamed *suspect // that is still in the solve; nil: none
}

// agree solves shots and leaves out what the scales of the others contradict:
// a taped distance; a ruler or card that at least two others are surely against, the
// one first without which the rest fits best. Where there is nothing but one against
// another, both stay, and lengths are widened to hold either reading.
func (f *figure) agree(ctx context.Context, shots []Shot, from *Subject) (*Subject, verdict, error) {
	var out verdict
	s, err := f.solve(ctx, shots, from)
	if err != nil {
		return nil, out, err
	}
	if s, out, err = s.withoutDistances(ctx); err != nil {
		return nil, out, err
	}
	for {
		all := s.suspects(ctx)
		if len(all) == 0 {
			return s, out, nil
		}
		first := all[0]
		g := s.contradiction(all)
		out.blamed = &first
		if len(s.sticks()) < 3 {
			out.said, out.open = append(out.said, g), true
			s.widen(math.Log(first.factor))
			return s, out, nil
		}
		if first.odds < surelyOff { // right ones are doubted too often to be left out
			out.said = append(out.said, g)
			return s, out, nil
		}
		g.Said += " It is left out."
		out.said, out.blamed, s = append(out.said, g), nil, first.without
	}
}

// sticks are the rulers and cards of the shots.
func (s *Subject) sticks() (out []*stick) {
	for _, v := range s.model.views {
		for k := range v.sticks {
			out = append(out, &v.sticks[k])
		}
	}
	return out
}

// widen takes into the covariance that all lengths may be longer or shorter by a
// logarithm: 95 % intervals then hold both ends, wherever between them the solve
// came to rest.
func (s *Subject) widen(by float64) {
	var at []int
	var d []float64
	add := func(i int, slope float64) { at, d = append(at, i), append(d, slope*by/2) }
	for i := range 3*len(s.model.fig.landmarks) + 1 {
		add(i, s.best.x[i])
	}
	for _, v := range s.model.views {
		add(v.at+3, 1)
	}
	for i, a := range at {
		for j, b := range at[:i+1] {
			s.best.cov.SetSym(a, b, s.best.cov.At(a, b)+d[i]*d[j])
		}
	}
	for i := range s.Points {
		s.Points[i].SD = s.deviation(s.model.fig.must(s.Points[i].Name))
	}
}

// withoutDistances leaves taped distances out that rulers and lenses contradict,
// the worst first. Against a single ruler or card lengths are widened as well.
func (s *Subject) withoutDistances(ctx context.Context) (*Subject, verdict, error) {
	var out verdict
	for len(s.sticks()) > 0 {
		at, without, err := s.wrongDistance(ctx)
		if err != nil {
			return nil, out, err
		}
		if at < 0 {
			break
		}
		q := s.Shots[at]
		d, _ := without.Distance(at)
		g := q.doubt("The distance to the camera is given as %.2f m, but by ruler and lens it is %.2f m. The distance is left out.", q.Distance/1000, d/1000)
		g.Perhaps = fmt.Sprintf("Measure from the lens to %s; or see whether the focal length is right and the picture was not cropped.", map[bool]string{true: "the ears", false: "the middle of the body"}[q.View.OfHead()])
		s = without
		if len(s.sticks()) == 1 {
			out.open, g.Level = true, report.Problem
			g.Said += " All sizes are taken as unsure enough for either to be right."
			g.Perhaps = "Read the two marked figures of the ruler again. " + g.Perhaps
			s.widen(2 * math.Expm1(math.Abs(math.Log(q.Distance/d))) / 1.96) // it rests at one end
		}
		out.said = append(out.said, g)
	}
	return s, out, nil
}

// wrongDistance is the shot whose taped distance is contradicted most, and the
// solve without it; -1 if none is.
func (s *Subject) wrongDistance(ctx context.Context) (at int, best *Subject, err error) {
	worst := wrongRuler
	at = -1
	for i, q := range s.Shots {
		if q.Distance == 0 || q.F35 == 0 {
			continue
		}
		shots := slices.Clone(s.Shots)
		shots[i].Distance = 0
		without, err := s.model.fig.solve(ctx, shots, s)
		if err != nil {
			return at, nil, err
		}
		d, sd := without.Distance(i)
		if odds := math.Abs(math.Log(q.Distance/d)) / norm(sd/d, tapedShare, tapedFrom/q.Distance); odds > worst {
			worst, at, best = odds, i, without
		}
	}
	return at, best, nil
}
