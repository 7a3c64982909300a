package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// ToItself says, as it stands on a page, what an edge is joined to whose seam has the
// same panel on both sides: the other edge of the same copy, as of a tube, or an edge of
// another copy that is not turned over. It is "" of an edge that meets another panel, and
// of one that meets its mirror image.
func (p *Piece) ToItself(panel *Panel, e Edge) string {
	a, b, ok := p.sidesOf(e)
	switch {
	case !ok || a.Panel != b.Panel || panel.Label != p.Panels[a.Panel].Label:
		return ""
	case a != b && panel.closes(panel.Edges[a.Edge], panel.Edges[b.Edge], p.Thickness):
		return "its other edge"
	case a == b && panel.Flipped > 0:
		return ""
	case panel.endForEnd():
		return "the other one, end for end"
	}
	return "the next one"
}

// sidesOf are both sides of the stretch of a seam that an edge is of.
func (p *Piece) sidesOf(e Edge) (a, b EdgeRef, ok bool) {
	for i := range p.Seams {
		if s := &p.Seams[i]; s.Number == e.Seam && e.Span >= 1 && e.Span <= len(s.Spans) {
			return s.Spans[e.Span-1].Sides[0], s.Spans[e.Span-1].Sides[1], true
		}
	}
	return a, b, false
}

// closes tells whether two edges of a panel lie at one place, nearer than its foam is thick.
func (panel *Panel) closes(e, f Edge, thickness float64) bool {
	middle := func(e Edge) r3.Vec { return panel.Surface.Lift(geom.At(e.Line, geom.Length(e.Line)/2)) }
	return geom.Dist(middle(e), middle(f)) < thickness
}

// endForEnd tells whether of two copies the other one stands upside down.
func (panel *Panel) endForEnd() bool {
	if len(panel.alike) != 1 {
		return false
	}
	middle := geom.Centroid(panel.Outline)
	up := r3.Sub(panel.Surface.Lift(r2.Add(middle, panel.Up)), panel.Surface.Lift(middle))
	return r3.Dot(panel.alike[0].Dir(up), up) < 0
}
