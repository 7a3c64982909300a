package pattern

import "tasset/internal/geom"

// weigh sets what the piece's foam weighs as it is cut: the panels' area, all
// copies, times thickness and density (kg/m³). Paint, straps, pads and glue are
// not in it; bevels take a little off. A mock-up is not of that foam.
func (p *Piece) weigh(density float64) {
	if p.MockUp {
		return
	}
	const cubicMetre = 1e9 // mm³
	p.Weight = p.area() * p.Thickness * density / cubicMetre
}

// Count is how many panels the piece has when it is cut, of one of a pair.
func (p *Piece) Count() int {
	n := 0
	for _, panel := range p.Panels {
		n += panel.Copies
	}
	return n / max(p.Copies, 1)
}

// area is what the piece takes of foam, all copies, mm².
func (p *Piece) area() float64 {
	var sum float64
	for _, panel := range p.Panels {
		one := geom.Area(panel.Outline)
		for _, h := range panel.Holes {
			one += geom.Area(h) // negative: holes run clockwise
		}
		sum += one * float64(panel.Copies)
	}
	return sum
}
