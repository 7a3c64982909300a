package pattern

import "slices"

// inCard takes off what is said of bevels, grooves and heat: card is cut square,
// scored and bent. What foam is formed to, a mock-up shows by its outline.
func (p *Piece) inCard() {
	for i := range p.Panels {
		panel := &p.Panels[i]
		for j := range panel.Edges {
			panel.Edges[j].Bevel = Bevel{}
		}
		for j := range panel.Folds {
			if f := &panel.Folds[j]; f.Kind != "bent" {
				f.Kind = "scored"
			}
		}
		if panel.Formed == nil {
			continue
		}
		panel.Formed = nil
		panel.Marks = slices.DeleteFunc(panel.Marks, func(m Mark) bool { return m.Kind == MarkStretch || m.Kind == MarkGather })
		panel.Notes = append(panel.Notes, "Foam is formed here; card only bends, so it will pucker or gape inside this outline.")
	}
}
