package fit

import (
	"slices"
	"strings"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
)

// headwear is what is worn on the head together.
type headwear []*held

// judged is headwear with what is said of seeing and breathing in it.
type judged struct {
	headwear
	findings []report.Finding
}

// headwearOf are the sets of pieces on the head that can be worn together: all
// of them, unless the foam of two is in the same place, as of two helmets of one
// costume.
func headwearOf(pieces []*held, met []clash) []headwear {
	var on headwear
	for _, p := range pieces {
		if p.Segment == body.Head && !p.Flat {
			on = append(on, p)
		}
	}
	var out []headwear
	for _, p := range on {
		together := headwear{p}
		for _, q := range on {
			if q != p && !slices.ContainsFunc(together, func(r *held) bool { return insteadOf(met, q.Piece, r.Piece) }) {
				together = append(together, q)
			}
		}
		same := func(h headwear) bool {
			return len(h) == len(together) && !slices.ContainsFunc(h, func(q *held) bool { return !slices.Contains(together, q) })
		}
		if !slices.ContainsFunc(out, same) {
			out = append(out, together)
		}
	}
	return out
}

// judge tells what is seen and breathed in all headwear; what was judged before is
// taken over.
func judge(all []headwear, before []judged, form *body.Form) []judged {
	out := make([]judged, len(all))
	for i, h := range all {
		if k := slices.IndexFunc(before, func(j judged) bool { return slices.Equal(j.headwear, h) }); k >= 0 {
			out[i] = before[k]
			continue
		}
		walls := geom.NewLocator(together(h, func(p *held) geom.Mesh { return p.walls() }))
		out[i] = judged{h, slices.Concat(h.seeing(h.sight(form, walls)), h.breathing(h.air(form)))}
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
