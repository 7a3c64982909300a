package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Covers tells whether there is foam at a place of the flat panel.
func (p *Panel) Covers(at r2.Vec) bool {
	if !geom.Inside(p.Outline, at) && geom.DistToRing(p.Outline, at) > geom.Coincident {
		return false
	}
	for _, h := range p.Holes {
		if geom.Inside(h, at) {
			return false
		}
	}
	return true
}

// cut tells whether an opening or a drawn rim has made the edge.
func (e *Edge) cut() bool { return e.Kind == Opening || e.Drawn }

// opened tells whether an opening or a drawn rim has taken something of the panel
// away.
func (p *Panel) opened() bool {
	for _, e := range p.Edges {
		if e.cut() {
			return true
		}
	}
	return len(p.Holes) > 0
}

// reflect turns a piece into its mirror image about x = 0.
func (p *Piece) reflect() {
	for i := range p.Panels {
		p.Panels[i].reflect()
	}
	if p.stands != nil {
		for _, l := range p.stands.links {
			for i := range l.at {
				l.at[i].q.X = -l.at[i].q.X
			}
		}
	}
	for i := range p.Seams {
		for j := range p.Seams[i].Line {
			p.Seams[i].Line[j].X = -p.Seams[i].Line[j].X
		}
		for j := range p.Seams[i].Spans {
			for k := range p.Seams[i].Spans[j].Sides {
				ref := &p.Seams[i].Spans[j].Sides[k]
				ref.Edge = len(p.Panels[ref.Panel].Edges) - 1 - ref.Edge
			}
		}
	}
}

func (p *Panel) reflect() {
	flip := func(pts []r2.Vec) []r2.Vec {
		out := geom.Reversed(pts)
		for i := range out {
			out[i].X = -out[i].X
		}
		return out
	}
	p.Outline = flip(p.Outline)
	for i := range p.Holes {
		p.Holes[i] = flip(p.Holes[i])
	}
	for i := range p.Folds {
		p.Folds[i].Line = flip(p.Folds[i].Line)
	}
	for i := range p.Marks {
		p.Marks[i].Line = flip(p.Marks[i].Line)
	}
	if p.Formed != nil {
		f := *p.Formed
		f.Worst.X = -f.Worst.X
		p.Formed = &f
	}
	n := len(p.Edges)
	edges := make([]Edge, n)
	for i, e := range p.Edges {
		e.Line, e.Along = flip(e.Line), !e.Along
		if e.Face != nil {
			e.Face = flip(e.Face)
		}
		e.Notches = append([]Notch(nil), e.Notches...)
		for j := range e.Notches {
			e.Notches[j].P.X, e.Notches[j].In.X = -e.Notches[j].P.X, -e.Notches[j].In.X
		}
		edges[n-1-i] = e
	}
	p.Edges = edges
	s := Surface{}
	for i := range p.Surface.Flat {
		f, b := p.Surface.Flat[i], p.Surface.Bent[i]
		s.Flat = append(s.Flat, r2.Vec{X: -f.X, Y: f.Y})
		s.Bent = append(s.Bent, r3.Vec{X: -b.X, Y: b.Y, Z: b.Z})
	}
	for _, t := range p.Surface.T {
		s.T = append(s.T, [3]int{t[0], t[2], t[1]})
	}
	p.Surface = s
}
