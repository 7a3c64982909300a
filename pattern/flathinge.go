package pattern

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/internal/units"
)

// clothHalf is how far the cloth of a hinge lies on either part, mm (common practice,
// no source: two to three times the foam's thickness).
const clothHalf = 15.0

// hingeOf marks how far the cloth of a hinge lies on both its parts, and says how it is
// made.
func (p *Piece) hingeOf(s Seam) {
	var labels [2]string
	for k, ref := range s.Spans[0].Sides {
		panel := &p.Panels[ref.Panel]
		labels[k] = panel.Label
		line := geom.Reversed(geom.OffsetLine(panel.Edges[ref.Edge].Line, -clothHalf)) // the cloth is at its left
		panel.Marks = append(panel.Marks, Mark{Kind: "line", Line: line, Covers: true, Text: fmt.Sprintf("cloth of hinge %d up to here, on the outside", s.Number)})
	}
	p.Notes = append(p.Notes, p.clothNote(s, labels))
}

// clothNote tells a maker what the hinge between two flat parts is made of, and notes
// its cloth.
func (p *Piece) clothNote(s Seam, labels [2]string) string {
	n := p.Panels[s.Spans[0].Sides[0].Panel].Copies
	p.Sheets = append(p.Sheets, Sheet{Name: fmt.Sprintf("cloth of hinge %d", s.Number), Of: "strong cloth", Count: n, Long: s.Length, Broad: 2 * clothHalf})
	return fmt.Sprintf("Hinge %d: %s and %s are not glued to each other. Hold them closed, and glue a strip of strong cloth over the seam on the outside, up to the line marked on either: cut %d of %s by %s. They have no template.",
		s.Number, labels[0], labels[1], n, units.Format(s.Length, p.Units), units.Format(2*clothHalf, p.Units))
}
