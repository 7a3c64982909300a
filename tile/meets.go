package tile

import "tasset/pattern"

// meets says what an edge is joined to: "3b ▸ V2", and "3b ▸ V2 flipped" if
// that is the copy of V2 of the other hand.
func (d *drawing) meets(e pattern.Edge) string {
	s := e.SeamName()
	if e.Partner == "" {
		return s
	}
	s += " ▸ " + e.Partner
	if d.otherHand(e) {
		s += " flipped"
	}
	return s
}

// otherHand tells whether an edge meets a copy of its partner that is flipped
// against it. Two panels of one hand run along their seam in opposite
// directions, both being counter-clockwise.
func (d *drawing) otherHand(e pattern.Edge) bool {
	for _, p := range d.piece.Panels {
		if p.Label != e.Partner || p.Flipped == 0 || p.Copies < 2*max(d.piece.Copies, 1) {
			continue // all copies in one piece are of one hand
		}
		for _, o := range p.Edges {
			if o.Seam == e.Seam && o.Span == e.Span && o.Partner == d.panel.Label {
				return o.Along == e.Along
			}
		}
	}
	return false
}
