package booklet

import (
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
	return []entry{{strings.Join(order, ", "), "in this order: the first lies innermost, and each further one lies " + lie(p) + " over the one before it. Marks of one number, of a rivet or a strap, lie on each other. Make each lame by itself, and try how they slide before you fix anything."}}
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
