package photo

import (
	"context"
	"math"
	"slices"
	"sort"
)

// A slip where few marks check each other makes all marks look bad, and so hides
// itself. Judgement.
const (
	hidesFrom = 1.25  // spread from which one is looked for
	tried     = 5     // marks that are tried for it
	suspicion = 5     // surprise from which a mark is tried
	noMark    = 300.0 // mm: with this deviation a mark says nothing
)

// findSlip solves again without each of the most surprising marks, if all marks
// look bad and none stands out. The one that the others then contradict most is
// judged as that.
func (s *Subject) findSlip(ctx context.Context) error {
	worst, ok := s.worst()
	if !ok || worst.Surprise > surprising || s.Spread < hidesFrom && s.Settled {
		return nil
	}
	order := make([]int, len(s.Fits))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return s.Fits[order[i]].Surprise > s.Fits[order[j]].Surprise })
	best, at := Fit{Surprise: surprising}, -1
	for _, i := range order[:min(tried, len(order))] {
		if s.Fits[i].Surprise < suspicion {
			break
		}
		f, err := s.without(ctx, s.Fits[i])
		if err != nil {
			return err
		}
		if f.Surprise > best.Surprise {
			best, at = f, i
		}
	}
	if at >= 0 {
		s.Fits[at].Surprise, s.Fits[at].Expected = best.Surprise, best.Expected
	}
	return nil
}

// without judges a mark by a solve in which it says nothing.
func (s *Subject) without(ctx context.Context, f Fit) (Fit, error) {
	shots := slices.Clone(s.Shots)
	q := &shots[f.Shot]
	q.Marks = slices.Clone(q.Marks)
	click := q.Marks[f.Mark].SD
	if l := s.model.fig.landmarks[s.model.fig.must(f.Name)]; click == 0 {
		click = l.Click
	}
	q.Marks[f.Mark].SD = noMark
	o, err := s.model.fig.solve(ctx, shots, s)
	if err != nil {
		return f, err
	}
	v := o.model.views[f.Shot]
	k := slices.IndexFunc(v.sights, func(g sight) bool { return g.mark == f.Mark })
	j := o.best.judge(o.best.rows.blocks[v.marks[k]].from, o.best.weights[v.marks[k]])
	j = j.of(o.hand() * math.Pow(click/noMark, 2))
	at := slices.IndexFunc(o.Fits, func(g Fit) bool { return g.Shot == f.Shot && g.Mark == f.Mark })
	f.Expected = o.Fits[at].Expected
	switch s.model.fig.landmarks[v.sights[k].landmark].rim {
	case noAxis:
		f.Surprise, _ = j.both()
	case uAxis:
		f.Surprise, _ = j.one(0)
	case vAxis:
		f.Surprise, _ = j.one(1)
	}
	return f, nil
}
