package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// leastCovered (rounding): how much of an opening a raised strip covers at least for
// that to be told, mm.
const leastCovered = 0.5

// covered is an opening that a raised strip lies over.
type covered struct {
	opening string
	panels  []string // labels
	room    float64  // how wide a strip stays clear of it, mm
}

// coveredBy notes which openings of a panel a strip of a width along a line lies over,
// those aside that it runs along itself.
func (l *layerPlan) coveredBy(panel *Panel, line []r2.Vec, width float64) {
	over := append(geom.OffsetLine(line, -l.inset), geom.Reversed(geom.OffsetLine(line, -l.inset-width))...)
	note := func(name string, border []r2.Vec) {
		if room := roomBeside(line, over, border) - l.inset; room < width-leastCovered && name != l.along {
			l.noteCovered(name, panel.Label, max(room, 0))
		}
	}
	for j, h := range panel.Holes {
		note(panel.holeOf[j], append(h[:len(h):len(h)], h[0]))
	}
	for _, e := range panel.Edges {
		if e.Kind == Opening && !contains(l.edges, e.Of) {
			note(e.Of, awayFromEnds(line, e.Line, 1.5*width))
		}
	}
}

// roomBeside is how near to a line the part of a border comes that lies within a strip.
func roomBeside(line, strip, border []r2.Vec) float64 {
	room := math.Inf(1)
	if len(border) < 2 {
		return room
	}
	for _, q := range divided(border, stripStep) {
		if !geom.Inside(strip, q) {
			continue
		}
		for i, a := range line[1:] {
			room = min(room, geom.DistToSegment(q, line[i], a))
		}
	}
	return room
}

// awayFromEnds are the places of an opening's edge that are no nearer to a line's ends
// than so: where the opening cuts the rim the strip ends, square to it.
func awayFromEnds(line, edge []r2.Vec, least float64) (out []r2.Vec) {
	for _, q := range divided(edge, stripStep) {
		if min(geom.Dist(q, line[0]), geom.Dist(q, line[len(line)-1])) > least {
			out = append(out, q)
		}
	}
	return out
}

func (l *layerPlan) noteCovered(opening, panel string, room float64) {
	i := slices.IndexFunc(l.covers, func(c covered) bool { return c.opening == opening })
	if i < 0 {
		i = len(l.covers)
		l.covers = append(l.covers, covered{opening: opening, room: room})
	}
	c := &l.covers[i]
	c.room = min(c.room, room)
	if !slices.Contains(c.panels, panel) {
		c.panels = append(c.panels, panel)
	}
}

// tellCovered says which openings a strip lies over, and what to set.
func (b *builder) tellCovered(l *layerPlan) {
	for _, c := range l.covers {
		f := report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where}
		f.Said = fmt.Sprintf("the raised strip %q lies over the opening %q (%s).", l.name, c.opening, strings.Join(c.panels, ", "))
		widest := math.Floor(2*c.room) / 2
		set := "Make the strip"
		for _, s := range b.template.Settings {
			if s.Ident == l.widthOf {
				set = fmt.Sprintf("Set %q to", s.Name)
				if at := b.order.Places[s.Name]; at != "" {
					f.Where = at
				}
			}
		}
		switch {
		case widest >= narrowestStrip:
			f.Perhaps = fmt.Sprintf("%s %s at most, or move the opening or make it smaller.", set, units.FormatSetting(widest, b.order.Units))
		default:
			f.Perhaps = fmt.Sprintf("%s 0, which leaves it out, or move the opening or make it smaller.", set)
		}
		b.findings = append(b.findings, f)
	}
}
