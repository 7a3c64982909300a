package costume

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"tasset/internal/report"
	"tasset/pattern"
)

// has tells whether the costume has all pieces of some names: nil, or what was
// probably meant.
func (f *Folder) has(only []string) error {
	for _, name := range only {
		var known []string
		found := false
		for _, o := range f.Costume.Orders {
			known = append(known, o.Name)
			found = found || wanted(o, []string{name})
		}
		for _, l := range f.Costume.Pictures {
			if l.Outline != nil {
				known = append(known, l.Name)
				found = found || strings.EqualFold(name, l.Name)
			}
		}
		if !found {
			return notInCostume(name, known)
		}
	}
	return nil
}

// wanted tells whether an order is among names of pieces or templates; none are
// all.
func wanted(o pattern.Order, only []string) bool {
	for _, name := range only {
		if strings.EqualFold(name, o.Name) || strings.EqualFold(name, o.Template) {
			return true
		}
	}
	return len(only) == 0
}

// orders are the pieces to make: those of templates, with the curves that were
// drawn for them, and those that were traced; of some alone, those among names.
func (f *Folder) orders(o Options, r *Result, among []string) ([]pattern.Order, error) {
	all := slices.Clone(f.Costume.Orders)
	for _, t := range r.Over.Traced {
		all = append(all, t.order())
	}
	var out []pattern.Order
	asked := false
	for _, order := range all {
		if wanted(order, among) {
			order.Units = f.Units()
			order.MockUp = order.MockUp || o.MockUp
			out = append(out, order)
			asked = asked || wanted(order, o.Only)
		}
	}
	if asked {
		findings, err := f.draw(out, r.Photos, r.HeadOnForm)
		r.Findings = append(r.Findings, findings...)
		return out, err
	}
	if err := f.notMade(o.Only, r); err != nil {
		return nil, err
	}
	return nil, fmt.Errorf("%s:1: found no pieces; write a list under \"pieces\", such as \"- piece: vambrace\"", CostumeFile)
}

// narrow takes the pieces that were not asked for out of a result.
func (r *Result) narrow(o Options) {
	r.Set = r.whole.Only(func(order pattern.Order) bool { return wanted(order, o.Only) })
	r.Findings = r.ofAsked(r.Findings)
}

// ofAsked are findings but for those about pieces that were not asked for.
func (r *Result) ofAsked(findings []report.Finding) []report.Finding {
	asked := map[string]bool{}
	for _, p := range r.whole.Pieces {
		asked[p.Name] = false
	}
	for _, p := range r.Set.Pieces {
		asked[p.Name] = true
	}
	return slices.DeleteFunc(findings, func(g report.Finding) bool {
		is, known := asked[g.Subject]
		return known && !is
	})
}

// notMade says why a traced piece that was asked for has no size; nil if none
// was.
func (f *Folder) notMade(only []string, r *Result) error {
	for _, l := range f.Costume.Pictures {
		if l.Outline == nil || !wanted(pattern.Order{Name: l.Name}, only) {
			continue
		}
		for _, g := range r.Findings {
			if g.Level == report.Problem && g.Where == l.Where {
				return errors.New(g.String())
			}
		}
	}
	return nil
}

func notInCostume(name string, known []string) error {
	if k := report.Nearest(name, known); k != "" {
		return fmt.Errorf("the costume has no piece %q; did you mean %q?", name, k)
	}
	return fmt.Errorf("the costume has no piece %q; it has %s", name, strings.Join(known, ", "))
}
