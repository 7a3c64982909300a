package pattern

import "tasset/internal/geom"

// PadDensity is what soft foam of pads weighs, kg/m³ (common practice, no source:
// cushions have 20 to 40).
const PadDensity = 30.0

// weigh sets what the piece's foam weighs as it is cut: the panels' area, all
// copies, times thickness and density (kg/m³); pads are of soft foam. Paint, straps
// and glue are not in it; bevels take a little off. A mock-up is not of that foam.
func (p *Piece) weigh(density float64) {
	if p.MockUp {
		return
	}
	p.Weight = 0
	const cubicMetre = 1e9 // mm³
	for i := range p.Panels {
		panel := &p.Panels[i]
		of := density
		if panel.Role == Pad {
			of = min(density, PadDensity)
		}
		p.Weight += panel.Area() * float64(panel.Copies) * p.Foam(panel) * of / cubicMetre
	}
}

// Count is how many panels the piece has when it is cut, of one of a pair.
func (p *Piece) Count() int {
	n := 0
	for _, panel := range p.Panels {
		n += panel.Copies
	}
	return n / max(p.Copies, 1)
}

// Area is that of one panel, mm².
func (p *Panel) Area() float64 {
	a := geom.Area(p.Outline)
	for _, h := range p.Holes {
		a += geom.Area(h) // negative: holes run clockwise
	}
	return a
}
