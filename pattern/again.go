package pattern

import (
	"io/fs"
	"reflect"
	"slices"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern/template"
)

// kept is what was made of one order and of what, so that it can be taken over
// into the next set if nothing of that has changed.
type kept struct {
	order    Order
	template *template.Template // nil: a traced one
	source   string             // of the template
	form     *body.Form
	material Material
	on       []string // names of the orders that had to be made before
	pieces   []Piece
	findings []report.Finding
}

// source is a template's file; one that is missing has failed already.
func source(fsys fs.FS, name string) string {
	src, _ := fs.ReadFile(fsys, name+".yaml")
	return string(src)
}

// madeOf is a template that the set was made of; nil if its file has changed since.
func (s *Set) madeOf(fsys fs.FS, name string) *template.Template {
	if s == nil {
		return nil
	}
	for _, k := range s.kept {
		if k.template != nil && k.order.Template == name && k.source == source(fsys, name) {
			return k.template
		}
	}
	return nil
}

// reusable are, for each order, what an earlier set holds of it, nil where it
// must be made: it or something it is built on has changed.
func (s *Set) reusable(now []kept, before [][]int) []*kept {
	out := make([]*kept, len(now))
	if s == nil {
		return out
	}
	seen := make([]bool, len(now))
	var ask func(i int) *kept
	ask = func(i int) *kept {
		if seen[i] {
			return out[i]
		}
		seen[i] = true
		for k := range s.kept {
			if old := &s.kept[k]; old.order.Name == now[i].order.Name && old.sameAs(&now[i]) {
				out[i] = old
			}
		}
		for _, j := range before[i] {
			if ask(j) == nil {
				out[i] = nil
			}
		}
		return out[i]
	}
	for i := range now {
		ask(i)
	}
	return out
}

// sameAs tells whether two orders make the same, wherever they stand in the file.
func (k *kept) sameAs(o *kept) bool {
	a, b := k.order, o.order
	a.Where, a.Places, b.Where, b.Places = "", nil, "", nil
	return k.source == o.source && k.form == o.form && k.material == o.material && slices.Equal(k.on, o.on) && reflect.DeepEqual(a, b)
}

// moved are the findings of an order as it stands in the file now.
func (k *kept) moved(to Order) []report.Finding {
	out := slices.Clone(k.findings)
	for i, f := range out {
		if f.Where == k.order.Where {
			out[i].Where = to.Where
		}
		for key, place := range k.order.Places {
			if f.Where == place && place != k.order.Where {
				out[i].Where = to.Places[key]
			}
		}
	}
	return out
}

// asked are the orders with what they are made of.
func asked(orders []Order, ts []*template.Template, fsys fs.FS, before [][]int, form *body.Form, m Material) []kept {
	out := make([]kept, len(orders))
	for i, o := range orders {
		out[i] = kept{order: o, template: ts[i], form: form, material: m}
		if o.Flat == nil {
			out[i].source = source(fsys, o.Template)
		}
		for _, j := range before[i] {
			out[i].on = append(out[i].on, orders[j].Name)
		}
	}
	return out
}

// TakenOver tells whether a piece is one of an earlier set that was taken over
// from there: all of it is the same but for its code, and what fastens it.
func (p *Piece) TakenOver(from *Piece) bool {
	return p.stood != nil && p.stood == from.stood
}
