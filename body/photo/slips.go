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

// silent solves with one mark that says nothing.
func (s *Subject) silent(ctx context.Context, shot, mark int) (*Subject, error) {
	shots := slices.Clone(s.Shots)
	q := &shots[shot]
	q.Marks = slices.Clone(q.Marks)
	q.Marks[mark].SD = noMark
	return s.model.fig.solve(ctx, shots, s)
}

// rivals names the pictures whose mark of the same landmark may be the wrong one
// as well: without it, the mark that does not fit would.
func (s *Subject) rivals(ctx context.Context, f Fit) (out []string) {
	for _, r := range s.Fits {
		if r.Name != f.Name || r.Shot == f.Shot {
			continue
		}
		o, err := s.silent(ctx, r.Shot, r.Mark)
		if err != nil {
			return nil
		}
		if at := slices.IndexFunc(o.Fits, f.same); o.Fits[at].Surprise < surprising/2 {
			out = append(out, s.Shots[r.Shot].Name)
		}
	}
	return out
}

// same tells whether another fit is of the same mark.
func (f Fit) same(g Fit) bool { return g.Shot == f.Shot && g.Mark == f.Mark }

// without judges a mark by a solve in which it says nothing.
func (s *Subject) without(ctx context.Context, f Fit) (Fit, error) {
	click := s.Shots[f.Shot].Marks[f.Mark].SD
	if l := s.model.fig.landmarks[s.model.fig.must(f.Name)]; click == 0 {
		click = l.Click
	}
	o, err := s.silent(ctx, f.Shot, f.Mark)
	if err != nil {
		return f, err
	}
	v := o.model.views[f.Shot]
	k := slices.IndexFunc(v.sights, func(g sight) bool { return g.mark == f.Mark })
	j := o.best.judge(o.best.rows.blocks[v.marks[k]].from, o.best.weights[v.marks[k]])
	j = j.of(o.hand() * math.Pow(click/noMark, 2))
	f.Expected = o.Fits[slices.IndexFunc(o.Fits, f.same)].Expected
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
