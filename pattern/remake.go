package pattern

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern/template"
)

// Remake is Make for who has an earlier set: what would come out the same is taken
// over from it. The form must be the earlier one if the body is the same.
func (s *Set) Remake(ctx context.Context, orders []Order, fsys fs.FS, form *body.Form, m Material) (*Set, []report.Finding, error) {
	ts, errs := s.loadAll(orders, fsys)
	before := needs(orders, ts)
	if err := goRound(before, orders, ts); err != nil {
		return nil, nil, err
	}
	before = withAllBefore(before)
	now := asked(orders, ts, fsys, before, form, m)
	k := &making{orders: orders, templates: ts, errs: errs, before: before, now: now, old: s.reusable(now, before)}
	k.all(ctx, form, m)
	set := &Set{kept: now}
	var findings []report.Finding
	for i := range now {
		if err := errs[i]; err != nil && err != errBefore {
			return nil, nil, orders[i].failed(err)
		}
		set.Pieces = append(set.Pieces, now[i].pieces...)
		findings = append(findings, now[i].findings...)
	}
	more, err := set.finish(m)
	if err != nil {
		return nil, nil, err
	}
	return set, append(findings, more...), nil
}

// Only is the set with some of its orders alone. Their pieces stay as they are among
// all: with the straps that go to the others, and the marks that those have on them.
func (s *Set) Only(wanted func(Order) bool) *Set {
	out, next := &Set{}, 0
	for _, k := range s.kept {
		pieces := s.Pieces[next : next+len(k.pieces)]
		if next += len(pieces); wanted(k.order) {
			out.Pieces, out.kept = append(out.Pieces, pieces...), append(out.kept, k)
		}
	}
	for _, name := range s.Dressing {
		if slices.ContainsFunc(out.Pieces, func(p Piece) bool { return p.Name == name }) {
			out.Dressing = append(out.Dressing, name)
		}
	}
	return out
}

// finish does what needs all pieces.
func (s *Set) finish(m Material) ([]report.Finding, error) {
	giveCodes(s)
	findings, err := s.fasten()
	if err != nil {
		return nil, err
	}
	if s.Dressing, err = s.dress(); err != nil {
		return nil, err
	}
	for i := range s.Pieces {
		s.Pieces[i].weigh(m.Density)
	}
	findings = append(findings, s.fastenable()...)
	return append(findings, s.heated(m.Shrink)...), nil
}

// making is a costume's orders while they are made.
type making struct {
	orders    []Order
	templates []*template.Template
	before    [][]int // of each order, all that must be made before it
	now       []kept  // what is made of each, which one alone writes
	old       []*kept // what an earlier set holds of it; nil: nothing
	errs      []error
	done      []chan struct{}
}

// all makes all orders, as many at a time as there are processors. What others
// wait for comes first, so that none of them is left alone at the end.
func (k *making) all(ctx context.Context, form *body.Form, m Material) {
	k.done = make([]chan struct{}, len(k.orders))
	for i := range k.done {
		k.done[i] = make(chan struct{})
	}
	turns, next := k.turns(), atomic.Int64{}
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for {
				n := int(next.Add(1)) - 1
				if n >= len(turns) {
					return
				}
				k.one(ctx, turns[n], form, m)
			}
		})
	}
	workers.Wait()
}

// turns are the orders by how many others wait for them, the most first: each
// stands behind all that must be made before it, as whoever waits for it waits for
// those too.
func (k *making) turns() []int {
	wait, out := make([]int, len(k.orders)), make([]int, len(k.orders))
	for i := range out {
		out[i] = i
		for _, j := range k.before[i] {
			wait[j]++
		}
	}
	slices.SortStableFunc(out, func(i, j int) int { return cmp.Compare(wait[j], wait[i]) })
	return out
}

// errBefore stands for the error of a piece that had to be made before.
var errBefore = errors.New("what it lies over could not be made")

// one makes an order once what it needs is made, or takes it over.
func (k *making) one(ctx context.Context, i int, form *body.Form, m Material) {
	defer close(k.done[i])
	for _, j := range k.before[i] {
		<-k.done[j]
		if k.errs[j] != nil {
			k.errs[i] = errBefore
		}
	}
	if k.errs[i] == nil {
		k.errs[i] = ctx.Err()
	}
	now, o := &k.now[i], k.orders[i]
	switch {
	case k.errs[i] != nil:
	case k.old[i] != nil:
		now.pieces, now.findings = k.old[i].pieces, k.old[i].moved(o)
	default:
		now.pieces, now.findings, k.errs[i] = makeOrder(o, k.templates[i], k.finished(i), form, m)
	}
}

// finished are the pieces that were made before an order.
func (k *making) finished(order int) finished {
	return func(template string) []*Piece {
		var out []*Piece
		for _, j := range k.before[order] {
			if k.templates[j].Name == template {
				for n := range k.now[j].pieces {
					out = append(out, &k.now[j].pieces[n])
				}
			}
		}
		return out
	}
}
