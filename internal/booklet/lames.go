package booklet

import (
	"slices"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// lamesOf tells in which order a run of lames goes together, and which of two lies
// outside.
func lamesOf(p *pattern.Piece) []entry {
	labels := map[int][]string{}
	most := 0
	for i := range p.Panels {
		if panel := &p.Panels[i]; panel.Lame > 0 && panel.Role == pattern.OfShell {
			labels[panel.Lame] = append(labels[panel.Lame], panel.Label)
			most = max(most, panel.Lame)
		}
	}
	if most < 2 {
		return nil
	}
	var order []string
	for n := 1; n <= most; n++ {
		order = append(order, strings.Join(labels[n], " + "))
	}
	if !p.UpperOut {
		slices.Reverse(order)
	}
	return []entry{{strings.Join(order, ", "), "in this order: the first lies innermost, and each further one lies " + units.Format(p.Overlap, p.Units) + " over the one before it. Marks of one number, of a rivet or a strap, lie on each other. Make each lame by itself, and try how they slide before you fix anything."}}
}
