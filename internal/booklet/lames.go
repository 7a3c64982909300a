package booklet

import (
	"fmt"
	"slices"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// lamesOf tells in which order a run of lames, and the parts that it meets, goes
// together, and which of two lies outside.
func lamesOf(p *pattern.Piece) []entry {
	var order []string
	for _, labels := range p.Chain {
		if len(labels) > 0 {
			order = append(order, strings.Join(labels, " + "))
		}
	}
	if len(order) < 2 {
		return nil
	}
	return []entry{{strings.Join(order, ", "), "in this order: the first lies innermost, and each further one lies " + lie(p) + " over the one before it." + held(p) + " Make each lame by itself, and try how they slide before you fix anything."}}
}

// held tells how rivets and straps hold a run together.
func held(p *pattern.Piece) (said string) {
	rivet := func(m pattern.Mark) bool { return strings.HasPrefix(m.Text, "rivet ") }
	for i := range p.Panels {
		if slices.ContainsFunc(p.Panels[i].Marks, rivet) {
			said = " The marks of a rivet lie on each other."
		}
	}
	var by []string
	for _, s := range p.Straps {
		if v := slack(p, s); s.Kind == "strap" && v > 0 {
			by = append(by, fmt.Sprintf("%s %d by about %s", s.Name, s.Number, units.Format(v, p.Units)))
		}
	}
	if len(by) > 0 {
		said += " The marks of a strap lie below each other on it: glue it to one part after the other, not drawn tight, but slack from each mark to the next while the run is straight, or the run cannot bend: " + strings.Join(by, ", ") + " (a rule of thumb)."
	}
	return said
}

// lie tells how far one lame lies over the next: as measured on the flat panels
// where their lines are, or along the run.
func lie(p *pattern.Piece) string {
	least, most := units.Format(p.Covers.Least, p.Units), units.Format(p.Covers.Most, p.Units)
	switch {
	case p.Covers.Most == 0:
		return units.Format(p.Overlap, p.Units) + ", told along the run,"
	case least == most:
		return most + " (when straight, measured up to the line marked on it)"
	}
	return least + " to " + most + " (when straight, measured up to the line marked on it)"
}
