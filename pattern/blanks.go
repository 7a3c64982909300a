package pattern

// blanks are the raw panels of all shells of a piece, and the lines where they
// meet.
type blanks struct {
	panels []rawPanel
	seams  []rawSeam
	paired bool // panels that are each other's mirror image share a template
	from   []cutShell
}

// cutShell is a shell and where its seams begin among those of the piece.
type cutShell struct {
	*cutter
	first int
}

// add puts the panels of one more shell with the others.
func (m *blanks) add(c *cutter) {
	seams := len(m.seams)
	for _, p := range c.panels {
		for i := range p.sides {
			if p.sides[i].seam >= 0 {
				p.sides[i].seam += seams
			}
		}
		p.lame = c.lame
		m.panels = append(m.panels, p)
	}
	m.seams = append(m.seams, c.seams...)
	m.paired = m.paired || c.plan.paired
	m.from = append(m.from, cutShell{c, seams})
}
