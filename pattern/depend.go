package pattern

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"

	"tasset/body"
	"tasset/pattern/template"
)

// loadAll reads the templates of all orders, each once and none that an earlier set
// was made of; nil for orders that have none, or whose template cannot be read: the
// errors stand beside them.
func (s *Set) loadAll(orders []Order, fsys fs.FS) ([]*template.Template, []error) {
	type loaded struct {
		t   *template.Template
		err error
	}
	byName := map[string]*loaded{}
	var all sync.WaitGroup
	for _, o := range orders {
		if o.Flat != nil || byName[o.Template] != nil {
			continue
		}
		l := &loaded{}
		byName[o.Template] = l
		all.Go(func() {
			if l.t = s.madeOf(fsys, o.Template); l.t == nil {
				l.t, l.err = template.Load(fsys, o.Template)
			}
		})
	}
	all.Wait()
	ts, errs := make([]*template.Template, len(orders)), make([]error, len(orders))
	for i, o := range orders {
		if l := byName[o.Template]; l != nil && o.Flat == nil {
			ts[i], errs[i] = l.t, l.err
		}
	}
	return ts, errs
}

// needs are, for each order, the orders whose pieces must be made before its
// own: those of the templates that it lies over or follows.
func needs(orders []Order, ts []*template.Template) [][]int {
	out := make([][]int, len(orders))
	for i, t := range ts {
		if t == nil {
			continue
		}
		names := t.BuiltOn()
		for j := range orders {
			if j != i && ts[j] != nil && slices.Contains(names, ts[j].Name) {
				out[i] = append(out[i], j)
			}
		}
	}
	return out
}

// withAllBefore adds to each order what those need that it needs.
func withAllBefore(needs [][]int) [][]int {
	out := make([][]int, len(needs))
	var reach func(i int, into map[int]bool)
	reach = func(i int, into map[int]bool) {
		for _, j := range needs[i] {
			if !into[j] {
				into[j] = true
				reach(j, into)
			}
		}
	}
	for i := range needs {
		all := map[int]bool{}
		reach(i, all)
		out[i] = slices.Sorted(maps.Keys(all))
	}
	return out
}

// goRound finds pieces that would each have to be made before the other, and
// says so at the first of them.
func goRound(needs [][]int, orders []Order, ts []*template.Template) error {
	const (
		fresh = iota
		open
		done
	)
	state := make([]int, len(needs))
	var path []int
	var visit func(i int) error
	visit = func(i int) error {
		switch state[i] {
		case done:
			return nil
		case open:
			return orders[i].failed(ringOf(path[slices.Index(path, i):], ts))
		}
		state[i], path = open, append(path, i)
		for _, j := range needs[i] {
			if err := visit(j); err != nil {
				return err
			}
		}
		state[i], path = done, path[:len(path)-1]
		return nil
	}
	for i := range needs {
		if err := visit(i); err != nil {
			return err
		}
	}
	return nil
}

func ringOf(path []int, ts []*template.Template) error {
	var files []string
	for _, i := range path {
		files = append(files, ts[i].File)
	}
	return fmt.Errorf("%s lies over or follows %s, which goes back to %s itself, so neither can be made before the other; take the `over` or `follow` out of one of them",
		files[0], strings.Join(files[1:], ", that "), files[0])
}

// finished gives pieces that are made already, by their template and in the
// costume's order.
type finished func(template string) []*Piece

// wornWith are the pieces of a template that a piece on a side has to do with:
// the first one on its own side, or of a pair that stands for both.
func (f finished) wornWith(template string, side body.Side) []*Piece {
	for _, p := range f(template) {
		if p.Side == side || p.Side == body.Both {
			return []*Piece{p}
		}
	}
	if side == body.Both {
		return f(template)
	}
	return nil
}
