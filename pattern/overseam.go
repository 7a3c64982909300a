package pattern

import (
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// MarkRest is the kind of that part of a strap's patch which lies over a seam, on the
// panel there.
const MarkRest = "rest of a patch"

// What lies over a seam is drawn on the panel at its other side where it crosses so much
// of the seam, and comes so far over it, mm (judgement).
const leastOverSeam = 4.0

// outlineOn is an outline on one of the panels.
type outlineOn struct {
	panel int
	ring  []r2.Vec
}

// overSeams are an outline on a panel, and on the panels at the other side of the seams
// that it lies over, unfolded about the chord of the stretch that it crosses.
func (p *Piece) overSeams(panel int, ring []r2.Vec) []outlineOn {
	out := []outlineOn{{panel, ring}}
	for _, s := range p.Seams {
		for _, span := range s.Spans {
			for side, here := range span.Sides {
				there := span.Sides[1-side]
				if here.Panel != panel {
					continue
				}
				if over, ok := unfolded(ring, &p.Panels[panel].Edges[here.Edge], &p.Panels[there.Panel].Edges[there.Edge]); ok {
					out = append(out, outlineOn{there.Panel, over})
				}
			}
		}
	}
	return out
}

// unfolded is an outline as it lies on the panel at the other side of an edge; ok is
// false if it does not come there.
func unfolded(ring []r2.Vec, here, there *Edge) (over []r2.Vec, ok bool) {
	const step = 1.0 // mm
	if r, e := geom.Bounds(ring), geom.Bounds(here.Line); r.Max.X < e.Min.X || e.Max.X < r.Min.X || r.Max.Y < e.Min.Y || e.Max.Y < r.Min.Y {
		return nil, false
	}
	from, to := here.Length, 0.0
	cum := geom.Lengths(here.Line)
	for s := 0.0; s <= here.Length; s += step {
		if geom.Inside(ring, geom.AtLength(here.Line, cum, s)) {
			from, to = min(from, s), s
		}
	}
	if to-from < leastOverSeam {
		return nil, false
	}
	a, z := geom.At(here.Line, from), geom.At(here.Line, to)
	b, y := there.facing(here, from), there.facing(here, to)
	if geom.Dist(a, z) < geom.Coincident || geom.Dist(b, y) < geom.Coincident {
		return nil, false
	}
	along, off := r2.Unit(r2.Sub(z, a)), r2.Scale(-1, quarterTurn(r2.Unit(r2.Sub(z, a)))) // out of the panel
	goes := r2.Unit(r2.Sub(y, b))
	in := quarterTurn(goes)
	if r2.Dot(goes, r2.Sub(there.Line[len(there.Line)-1], there.Line[0])) < 0 { // its line runs the other way
		in = r2.Scale(-1, in)
	}
	farthest := 0.0
	for _, q := range ring {
		d := r2.Sub(q, a)
		farthest = max(farthest, r2.Dot(d, off))
		over = append(over, r2.Add(b, r2.Add(r2.Scale(r2.Dot(d, along), goes), r2.Scale(r2.Dot(d, off), in))))
	}
	return over, farthest >= leastOverSeam
}

// facing is the place on an edge that meets one of its partner's, so far along that
// one's line.
func (e *Edge) facing(partner *Edge, s float64) r2.Vec {
	share := s / partner.Length
	if e.Along != partner.Along {
		share = 1 - share
	}
	return geom.At(e.Line, share*e.Length)
}

// drawRests draws of each strap's patch that lies over a seam what is on the panel at
// the other side.
func (p *Piece) drawRests() {
	var rests []outlineOn
	var texts []string
	for i := range p.Panels {
		for _, m := range p.Panels[i].Marks {
			if m.Kind != "fastening" || len(m.Axis) == 0 || m.Only != "" {
				continue
			}
			for _, o := range p.overSeams(i, m.Line)[1:] {
				rests, texts = append(rests, o), append(texts, m.Text)
			}
		}
	}
	for k, o := range rests {
		panel := &p.Panels[o.panel]
		panel.Marks = append(slices.Clip(panel.Marks), Mark{Kind: MarkRest, Close: true, Line: o.ring, Text: "rest of " + texts[k]})
	}
}
