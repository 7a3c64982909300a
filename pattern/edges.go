package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// part is what is left of a raw panel after trimming: one template.
type part struct {
	raw   int
	edges []rawEdge
	holes [][]r2.Vec
	named []string // the openings that the holes are of
}

// rawEdge is a stretch of a part's border with one fate.
type rawEdge struct {
	kind     EdgeKind
	seam     int     // index of the raw seam, or atRim
	from, to float64 // arc length along it, from < to
	along    bool
	pts      []r2.Vec
	segs     []int  // of the raw panel's border, for each chord of pts; nil for an opening
	name     string // of the ring, the opening or the drawn rim
	drawn    bool   // a drawn rim
	side     int    // of the raw panel; of a drawn rim none
	gap      bool   // a free edge where the piece opens
}

// parts makes a template of each loop and gives each hole to the one round it.
func (p *rawPanel) parts(raw int, loops []loop, holes []chain, breaks [][]float64) []part {
	b := p.border()
	var out []part
	for _, l := range loops {
		out = append(out, part{raw: raw, edges: p.edgesOf(l, b, breaks)})
	}
	for _, h := range holes {
		pts := h.strokes[0].pts
		for i := range out {
			if geom.Inside(out[i].outline(), pts[0]) {
				out[i].named = append(out[i].named, h.strokes[0].name)
				out[i].holes = append(out[i].holes, geom.Reversed(geom.CCW(append([]r2.Vec(nil), pts...))))
			}
		}
	}
	return out
}

// cutBy is the edge by which an opening or a drawn rim has bitten into the part,
// nil if none has.
func (p *part) cutBy() *rawEdge {
	for i, e := range p.edges {
		if e.kind == Opening || e.drawn {
			return &p.edges[i]
		}
	}
	return nil
}

// said is what the maker calls what cut the edge.
func (e *rawEdge) said() string {
	s := stroke{name: e.name}
	if e.drawn {
		s.kind = rims
	}
	return s.said()
}

// edges are the chain's strokes as a panel's border runs along them.
func (c *chain) edges() []rawEdge {
	var out []rawEdge
	for i := len(c.strokes) - 1; i >= 0; i-- {
		s := c.strokes[i]
		e := rawEdge{kind: Opening, seam: atRim, pts: geom.Reversed(s.pts), name: s.name, side: -1}
		switch s.kind {
		case rims:
			e.kind, e.drawn = Rim, true
		case splits:
			e.kind = Butt
			e.seam, e.along = s.seam.index, s.seam.back
			e.from, e.to = s.seam.stretch(s.pts)
		}
		out = append(out, e)
	}
	return out
}

func (p *part) outline() []r2.Vec {
	var out []r2.Vec
	for _, e := range p.edges {
		out = append(out, e.pts[:len(e.pts)-1]...)
	}
	return out
}

func (p *rawPanel) edgesOf(l loop, b border, breaks [][]float64) []rawEdge {
	var out []rawEdge
	for _, lp := range l.parts {
		switch {
		case lp.chain != nil:
			out = append(out, lp.chain.edges()...)
		case lp.whole:
			out = append(out, p.walk(b, place{0, 0}, place{len(b.from) - 1, 1}, breaks)...)
		default:
			out = append(out, p.walk(b, lp.from, lp.to, breaks)...)
		}
	}
	return joinEnds(out)
}
