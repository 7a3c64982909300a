package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Laid is a flat part that lies on another one, face to face: indices of panels.
type Laid struct {
	Under, Over int
	Outside     bool // on the show face of the one under it
}

// Of flat parts that lie on each other, mm (detail): how much more or less than none may
// be between them, and how far inside an outline a line is drawn.
const (
	laidNear   = 0.1
	laidInside = 0.5
)

// layFlats notes which flat parts lie on each other, and draws on either how far the
// other reaches.
func (p *Piece) layFlats() {
	for i := range p.Panels {
		for j := i + 1; j < len(p.Panels); j++ {
			out, ok := p.lies(i, j)
			if !ok {
				continue
			}
			p.Laid = append(p.Laid, Laid{i, j, out})
			p.drawLaid(i, j, out)
			same := r3.Dot(p.Panels[i].Surface.normal(0), p.Panels[j].Surface.normal(0)) > 0
			p.drawLaid(j, i, out != same)
		}
	}
}

// lies tells whether panel j lies on panel i, and whether on its show face. Walls that
// are joined by their edges lie on none.
func (p *Piece) lies(i, j int) (outside, ok bool) {
	a, z := &p.Panels[i], &p.Panels[j]
	for _, x := range []*Panel{a, z} {
		if x.Role != FlatPart || len(x.Surface.T) == 0 || x.Edges[0].Seam > 0 {
			return false, false
		}
	}
	n, m := a.Surface.normal(0), z.Surface.normal(0)
	off := r3.Dot(n, r3.Sub(z.Surface.Bent[0], a.Surface.Bent[0]))
	if r3.Norm(r3.Cross(n, m)) > geom.Coincident || math.Abs(math.Abs(off)-(p.Foam(a)+p.Foam(z))/2) > laidNear {
		return false, false
	}
	return off > 0, a.meetsOver(z) || z.meetsOver(a)
}

// meetsOver tells whether part of another flat, seen square to this one, is inside it.
func (panel *Panel) meetsOver(over *Panel) bool {
	within := func(q r2.Vec) bool {
		at, ok := panel.under(over.Surface.Lift(q))
		return ok && geom.DistToRing(panel.Outline, at) > laidInside
	}
	return within(geom.Centroid(over.Outline)) || slices.ContainsFunc(over.Outline, within)
}

// under is the place of a flat panel that a point stands over or below.
func (panel *Panel) under(p r3.Vec) (r2.Vec, bool) {
	n := panel.Surface.normal(0)
	return panel.pierced(r3.Sub(p, r3.Scale(farthest, n)), n)
}

// drawLaid draws on panel i the outline of panel j, as far as it is inside.
func (p *Piece) drawLaid(i, j int, outside bool) {
	panel, over := &p.Panels[i], &p.Panels[j]
	ring := divided(append(slices.Clone(over.Outline), over.Outline[0]), stripStep)
	var lines [][]r2.Vec
	var line []r2.Vec
	for _, q := range ring {
		at, ok := panel.under(over.Surface.Lift(q))
		if ok && geom.DistToRing(panel.Outline, at) > laidInside {
			line = append(line, at)
			continue
		}
		lines, line = append(lines, line), nil
	}
	if len(lines) > 0 && len(line) > 0 && len(lines[0]) > 0 && geom.Dist(line[len(line)-1], lines[0][0]) < stripStep {
		lines[0], line = append(line, lines[0]...), nil // it goes on where the outline begins
	}
	face := "inside"
	if outside {
		face = "outside"
	}
	for _, l := range append(lines, line) {
		if len(l) > 1 && geom.Length(l) >= leastGlued {
			panel.coverUpTo(panel.leftUnder(over, geom.Thin(l, geom.Detail)), fmt.Sprintf("%s %s", over.Label, over.Name), face)
		}
	}
}

// coverUpTo marks how far a part lies on the panel; where another one ends at the same
// line, as on its other face, the line says both.
func (panel *Panel) coverUpTo(line []r2.Vec, part, face string) {
	for k := range panel.Marks {
		m := &panel.Marks[k]
		if m.Kind == "line" && m.Covers && sameCourse(m.Line, line) {
			m.Text += fmt.Sprintf(", and %s, on the %s", part, face)
			return
		}
	}
	panel.Marks = append(panel.Marks, Mark{Kind: "line", Covers: true, Line: line, Text: fmt.Sprintf("%s lies over this line, on the %s", part, face)})
}

// sameCourse tells whether two lines run along each other, wherever they begin.
func sameCourse(a, b []r2.Vec) bool {
	la := geom.Length(a)
	if math.Abs(la-geom.Length(b)) > 2*laidInside {
		return false
	}
	const places = 12
	for k := range places + 1 {
		if q := geom.At(a, la*float64(k)/places); offLine(b, q) > geom.Detail {
			return false
		}
	}
	return true
}

// offLine is how far a place is from a line.
func offLine(line []r2.Vec, q r2.Vec) float64 {
	least := math.Inf(1)
	for i := range line[1:] {
		least = min(least, geom.DistToSegment(q, line[i], line[i+1]))
	}
	return least
}
