package booklet

import (
	"math"
	"slices"
	"strings"

	"tasset/internal/draw"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// writeBeside writes the label of each panel that has none in either of two drawings
// beside one where the panel is seen, with a line to it.
func writeBeside(p *pattern.Piece, both [2]*lettering) {
	said := map[string]bool{}
	for _, walls := range boxesOf(p) { // they are drawn by themselves
		for _, w := range walls {
			said[p.Panels[w].Label] = true
		}
	}
	for _, d := range both {
		for _, l := range d.placed {
			said[panelOf(l)] = true
		}
	}
	for _, panel := range p.Panels {
		for _, d := range both {
			if !said[panel.Label] {
				said[panel.Label] = d.beside(panel.Label)
			}
		}
	}
}

// panelOf is the panel that a label names.
func panelOf(l label) string {
	name, _, _ := strings.Cut(l.text, " ")
	return name
}

// How far from its panel a label beside the drawing may stand, mm on paper.
const (
	leastLead = 5.0
	mostLead  = 60.0
	leadStep  = 2.5
	leadTurns = 16
)

// beside writes a panel's label where there is nothing yet, with a line to where the
// panel is seen: as short a line as there is.
func (d *lettering) beside(panel string) bool {
	var own []label
	var at [][]r2.Vec
	for _, l := range d.labels {
		if !l.seam && panelOf(l) == panel {
			own, at = append(own, l), append(at, d.seenAt(l))
		}
	}
	for far := leastLead; far < mostLead; far += leadStep {
		for i, l := range own {
			for _, q := range at[i] {
				if d.leadFrom(l, q, far) {
					return true
				}
			}
		}
	}
	return false
}

// leadFrom writes a label so far from a place, in any direction.
func (d *lettering) leadFrom(l label, at r2.Vec, far float64) bool {
	for k := range leadTurns {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / leadTurns)
		t := l.onPaper(r2.Add(at, r2.Vec{X: far * cos, Y: far * sin}))
		if lead, ok := d.leadTo(t, at); ok {
			d.write(t, l)
			d.lead(lead)
			return true
		}
	}
	return false
}

// leadEnds is how many places of a panel are tried.
const leadEnds = 6

// seenAt are places on paper where a panel is seen, the best first: well inside it; of
// flat parts from either face, or at their rim.
func (d *lettering) seenAt(l label) (out []r2.Vec) {
	order := byWorth(l, d.cam)
	if len(l.rim) > 0 {
		for i := range l.at {
			if !slices.Contains(order, i) {
				order = append(order, i)
			}
		}
	}
	places := make([]r3.Vec, 0, len(order)+len(l.rim))
	for _, i := range order {
		places = append(places, l.at[i])
	}
	for _, q := range append(places, l.rim...) {
		if len(out) < leadEnds && d.v.Visible(q) {
			out = append(out, d.v.At(q))
		}
	}
	return out
}

// leadTo is the line from a text to a place, if both can stand: the text in the box,
// where nothing is drawn or written, the line through no text and no other line.
func (d *lettering) leadTo(t *draw.Text, at r2.Vec) (lead [2]r2.Vec, ok bool) {
	b := boxOf(t)
	if !within(b, d.box) || covered(b, d.taken) || d.drawnIn(b) {
		return lead, false
	}
	lead = [2]r2.Vec{{X: min(max(at.X, b.Min.X), b.Max.X), Y: min(max(at.Y, b.Min.Y), b.Max.Y)}, at}
	for _, o := range d.leads {
		if crosses(lead, o) {
			return lead, false
		}
	}
	return lead, !slices.ContainsFunc(d.taken, func(o r2.Box) bool {
		return crosses(lead, [2]r2.Vec{o.Min, o.Max}) || crosses(lead, [2]r2.Vec{{X: o.Min.X, Y: o.Max.Y}, {X: o.Max.X, Y: o.Min.Y}})
	})
}

// drawnIn tells whether something of the scene is drawn in a box, or a line to a label.
func (d *lettering) drawnIn(b r2.Box) bool {
	const across, up = 6, 3
	for i := range across + 1 {
		for j := range up + 1 {
			if d.v.Covers(r2.Vec{X: b.Min.X + (b.Max.X-b.Min.X)*float64(i)/across, Y: b.Min.Y + (b.Max.Y-b.Min.Y)*float64(j)/up}) {
				return true
			}
		}
	}
	return slices.ContainsFunc(d.leads, func(o [2]r2.Vec) bool {
		return crosses(o, [2]r2.Vec{b.Min, b.Max}) || crosses(o, [2]r2.Vec{{X: b.Min.X, Y: b.Max.Y}, {X: b.Max.X, Y: b.Min.Y}})
	})
}

// crosses tells whether two segments cross.
func crosses(a, b [2]r2.Vec) bool {
	side := func(s [2]r2.Vec, q r2.Vec) float64 { return r2.Cross(r2.Sub(s[1], s[0]), r2.Sub(q, s[0])) }
	return side(a, b[0])*side(a, b[1]) <= 0 && side(b, a[0])*side(b, a[1]) <= 0
}

// lead draws a line from a label to its panel, with a dot there.
func (d *lettering) lead(l [2]r2.Vec) {
	const dot = 0.45
	var ring []r2.Vec
	for k := range 8 {
		ring = append(ring, r2.Add(l[1], r2.Rotate(r2.Vec{X: dot}, float64(k)*math.Pi/4, r2.Vec{})))
	}
	black := draw.Color{}
	d.leads = append(d.leads, l)
	d.items = append(d.items,
		&draw.Path{Subpaths: [][]r2.Vec{l[:]}, Stroke: draw.Style{Width: 0.18}, Layer: "text"},
		&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Fill: &black, Layer: "text"})
}
