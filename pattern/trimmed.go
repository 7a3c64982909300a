package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
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
				l.at[i].q.X, l.at[i].asked.X = -l.at[i].q.X, -l.at[i].asked.X
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
	p.Outline = flipped(p.Outline)
	for i := range p.Holes {
		p.Holes[i] = flipped(p.Holes[i])
	}
	for i := range p.Folds {
		p.Folds[i].Line = flipped(p.Folds[i].Line)
	}
	for i := range p.Marks {
		p.Marks[i].Line, p.Marks[i].Axis = flipped(p.Marks[i].Line), geom.Reversed(flipped(p.Marks[i].Axis))
	}
	if p.Formed != nil {
		f := *p.Formed
		f.Worst.X = -f.Worst.X
		p.Formed = &f
	}
	edges := make([]Edge, len(p.Edges))
	for i, e := range p.Edges {
		edges[len(edges)-1-i] = e.reflected()
	}
	p.Edges, p.Surface = edges, p.Surface.reflected()
}

// flipped is a line of the panel on its mirror image, run the other way: the border
// stays counter-clockwise.
func flipped(pts []r2.Vec) []r2.Vec {
	out := geom.Reversed(pts)
	for i := range out {
		out[i].X = -out[i].X
	}
	return out
}

func (e Edge) reflected() Edge {
	e.Line, e.Beyond, e.Along = flipped(e.Line), geom.Reversed(e.Beyond), !e.Along
	e.Notches = append([]Notch(nil), e.Notches...)
	for j := range e.Notches {
		e.Notches[j].P.X, e.Notches[j].In.X = -e.Notches[j].P.X, -e.Notches[j].In.X
	}
	return e
}

func (s Surface) reflected() Surface {
	var out Surface
	for i, f := range s.Flat {
		out.Flat = append(out.Flat, r2.Vec{X: -f.X, Y: f.Y})
		out.Bent = append(out.Bent, mirrorX(s.Bent[i]))
	}
	for _, t := range s.T {
		out.T = append(out.T, [3]int{t[0], t[2], t[1]})
	}
	return out
}
