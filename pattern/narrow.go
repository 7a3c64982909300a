package pattern

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// narrow is a place of a panel between two bevels that meet within its foam.
type narrow struct{ wide, taken float64 } // at the face that the bevels leave whole, and what they take of it at the other, mm

// narrows warns of panels that are narrower than the bevels on either side of them, so
// that nothing is left of one face: the mitre setback t·tan(fold/2) of either.
func (b *builder) narrows(p *Piece) {
	var labels []string
	var worst narrow
	for i := range p.Panels {
		panel := &p.Panels[i]
		n, ok := panel.narrowest(p.Foam(panel), p.K)
		if !ok || panel.Role != OfShell {
			continue
		}
		if labels = append(labels, panel.Label); len(labels) == 1 {
			worst = n
		}
	}
	if len(labels) == 0 {
		return
	}
	said := fmt.Sprintf("%s is %s wide, and the bevels on both sides take %s of that from the other face: nothing is left of it.",
		labels[0], units.FormatFine(worst.wide, p.Units), units.FormatFine(worst.taken, p.Units))
	if len(labels) > 1 {
		said += " So it is of " + strings.Join(labels[1:], ", ") + "."
	}
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where, Said: said,
		Perhaps: "Use thinner foam, or cut it of thicker foam as one solid strip and sand it to its shape."})
}

// leastOpposed (judgement): two edges lie on either side of a panel where they run the
// same way to within 30°; where they run together to a point there is always a place
// that is narrower than its bevels, and the glue holds it.
var leastOpposed = math.Cos(math.Pi / 6)

// narrowest is the narrowest place between two bevels that leave nothing of a face.
func (p *Panel) narrowest(thick, k float64) (worst narrow, found bool) {
	least := 0.0
	for i := range p.Edges {
		e := &p.Edges[i]
		if e.setback() == 0 {
			continue
		}
		for _, share := range []float64{0.25, 0.5, 0.75} {
			from, along := geom.At(e.Line, share*geom.Length(e.Line)), e.runs(share)
			f, wide := p.opposite(i, from, along)
			if f == nil {
				continue
			}
			taken := thick * (e.setback() + f.setback())
			left := wide - k*taken
			if taken < 0 {
				left = wide + (1-k)*taken
			}
			if left < least {
				least, found = left, true
				worst = narrow{left + math.Abs(taken), math.Abs(taken)}
			}
		}
	}
	return worst, found
}

// setback is the tangent of an edge's bevel, below 0 where the outer face is cut back.
func (e *Edge) setback() float64 {
	t := math.Tan(e.Bevel.Middle())
	if !e.Bevel.Undercut {
		return -t
	}
	return t
}

// runs is the direction of an edge at a share of its length.
func (e *Edge) runs(share float64) r2.Vec {
	const step = 0.01
	long := geom.Length(e.Line)
	return r2.Unit(r2.Sub(geom.At(e.Line, (share+step)*long), geom.At(e.Line, (share-step)*long)))
}

// opposite is the bevelled edge that lies first across the panel from a place of edge i,
// and how far; nil if that one is not bevelled or runs another way.
func (p *Panel) opposite(i int, from, along r2.Vec) (*Edge, float64) {
	in := r2.Vec{X: -along.Y, Y: along.X}
	nearest, at := -1, math.Inf(1)
	var way r2.Vec
	for j := range p.Edges {
		for s, line := 0, p.Edges[j].Line; j != i && s+1 < len(line); s++ {
			a, run := line[s], r2.Sub(line[s+1], line[s])
			across := r2.Cross(in, run)
			if across == 0 {
				continue
			}
			d, share := r2.Cross(r2.Sub(a, from), run)/across, r2.Cross(r2.Sub(a, from), in)/across
			if d > geom.Detail && d < at && share >= 0 && share <= 1 {
				nearest, at, way = j, d, r2.Unit(run)
			}
		}
	}
	if nearest < 0 || p.Edges[nearest].setback() == 0 || -r2.Dot(way, along) < leastOpposed {
		return nil, 0
	}
	return &p.Edges[nearest], at
}
