package pattern

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// What stands free is held by no body while it is bent, so that a panel of it says how
// far: looked at along so many lines across it, if it bows by so much, mm (less looks flat); one that is
// bent to half of its width and less goes round something (judgement).
const (
	bendRows  = 9
	leastBow  = 5.0
	leastSpan = 0.5
)

// bends says on panels of a piece that stands free how far they are bent.
func (b *builder) bends(p *Piece) {
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != OfShell || panel.Formed != nil {
			continue
		}
		if span, bow := panel.bow(); bow >= leastBow {
			panel.Notes = append(panel.Notes, fmt.Sprintf("Bend it evenly, where it is widest until its sides stand %s apart, straight across, and its middle %s before them.",
				units.Format(span, p.Units), units.Format(bow, p.Units)))
		}
	}
}

// bow is how far apart the sides of the panel stand where it is widest, square to what
// is up, once it is bent, and how far its foam stands off the straight line between
// them; 0 of one that is not bent so.
func (p *Panel) bow() (span, bow float64) {
	across := r2.Vec{X: p.Up.Y, Y: -p.Up.X}
	low, high := p.extent(p.Up)
	left, right := p.extent(across)
	var widest [2]r2.Vec
	for row := range bendRows {
		up := r2.Scale(low+(high-low)*(float64(row)+0.5)/bendRows, p.Up)
		for _, s := range geom.ClipLine(r2.Add(up, r2.Scale(left-1, across)), r2.Add(up, r2.Scale(right+1, across)), p.Outline) {
			if geom.Dist(s[0], s[1]) > geom.Dist(widest[0], widest[1]) {
				widest = s
			}
		}
	}
	const inside = 0.01 // off the line to cut, which may lie off the panel
	lifter := p.Surface.Lifter()
	at := func(share float64) r3.Vec { return lifter.Lift(geom.Lerp(widest[0], widest[1], share)) }
	from, to := at(inside), at(1-inside)
	if span = geom.Dist(from, to); span < leastSpan*geom.Dist(widest[0], widest[1]) {
		return 0, 0
	}
	way := r3.Unit(r3.Sub(to, from))
	for share := 0.1; share < 1; share += 0.1 {
		bow = max(bow, r3.Norm(r3.Cross(r3.Sub(at(share), from), way)))
	}
	return span, bow
}

// extent is how far the outline reaches in a direction.
func (p *Panel) extent(way r2.Vec) (low, high float64) {
	for i, q := range p.Outline {
		d := r2.Dot(q, way)
		if i == 0 {
			low, high = d, d
		}
		low, high = min(low, d), max(high, d)
	}
	return low, high
}
