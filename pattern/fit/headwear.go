package fit

import (
	"slices"
	"strings"

	"tasset/body"
	"tasset/pattern"
)

// headwear is what is worn on the head together.
type headwear []*pattern.Piece

// headwearOf are the sets of pieces on the head that can be worn together: all
// of them, unless the foam of two is in the same place, as of two helmets of one
// costume.
func headwearOf(set *pattern.Set, met []clash) []headwear {
	var on headwear
	for i := range set.Pieces {
		if p := &set.Pieces[i]; p.Segment == body.Head && !p.Flat {
			on = append(on, p)
		}
	}
	var out []headwear
	for _, p := range on {
		together := headwear{p}
		for _, q := range on {
			if q != p && !slices.ContainsFunc(together, func(r *pattern.Piece) bool { return insteadOf(met, q, r) }) {
				together = append(together, q)
			}
		}
		same := func(h headwear) bool {
			return len(h) == len(together) && !slices.ContainsFunc(h, func(q *pattern.Piece) bool { return !slices.Contains(together, q) })
		}
		if !slices.ContainsFunc(out, same) {
			out = append(out, together)
		}
	}
	return out
}

// others names what is worn with the first piece.
func (h headwear) others() string {
	if len(h) < 2 {
		return ""
	}
	var names []string
	for _, p := range h[1:] {
		names = append(names, p.Name)
	}
	last := len(names) - 1
	if last == 0 {
		return " with the " + names[0]
	}
	return " with the " + strings.Join(names[:last], ", ") + " and " + names[last]
}

// alternative tells whether two pieces stand for each other: both go round the
// head, and neither is made to go with the other.
func (c *clash) alternative() bool {
	a, b := c.a.piece, c.b.piece
	return !c.set() && a.Segment == body.Head && b.Segment == body.Head && !slices.Contains(a.With, b.Template) && !slices.Contains(b.With, a.Template)
}

// set tells whether one of two pieces goes round no body, as horns do, and is set
// on the other.
func (c *clash) set() bool { return c.a.piece.Free || c.b.piece.Free }

// insteadOf tells whether one of two pieces is worn instead of the other.
func insteadOf(met []clash, p, q *pattern.Piece) bool {
	return slices.ContainsFunc(met, func(c clash) bool {
		return c.alternative() && (c.a.piece == p && c.b.piece == q || c.a.piece == q && c.b.piece == p)
	})
}
