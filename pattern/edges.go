package pattern

import (
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// part is what is left of a raw panel after trimming: one template.
type part struct {
	raw   int
	edges []rawEdge
	holes [][]r2.Vec
}

// rawEdge is a stretch of a part's border with one fate.
type rawEdge struct {
	kind     EdgeKind
	seam     int     // index of the raw seam, or atRim
	from, to float64 // arc length along it, from < to
	along    bool
	pts      []r2.Vec
	segs     []int  // of the raw panel's border, for each chord of pts; nil for an opening
	name     string // of the opening or the drawn rim
	drawn    bool   // a drawn rim
	side     int    // of the raw panel; of a drawn rim none
	gap      bool   // a free edge where the piece opens
}

// trimmedPanel is what cuts leave of a panel, on one side of each drawn seam.
type trimmedPanel struct {
	raw   int
	loops []loop
	holes []chain
}

// trimAll trims every panel and cuts the borders of what is left into edges.
func (c *cutter) trimAll(cuts []cutout) ([]part, error) {
	var lefts []trimmedPanel
	borderSeams := len(c.seams)
	breaks := make([][]float64, borderSeams)
	for i := range c.panels {
		p := &c.panels[i]
		b := p.border()
		left, err := c.trimOne(i, cuts, b)
		if err != nil {
			return nil, err
		}
		lefts = append(lefts, left...)
		for _, s := range p.sides {
			if s.seam >= 0 {
				breaks[s.seam] = append(breaks[s.seam], s.at[0], s.at[len(s.at)-1])
			}
		}
		for _, t := range left {
			for _, l := range t.loops {
				for _, lp := range l.parts {
					if lp.chain == nil && !lp.whole {
						p.addBreak(breaks, b, lp.from)
						p.addBreak(breaks, b, lp.to)
					}
				}
			}
		}
	}
	for i := range breaks {
		breaks[i] = distinct(breaks[i])
	}
	var parts []part
	for _, l := range lefts {
		parts = append(parts, c.panels[l.raw].parts(l.raw, l.loops, l.holes, breaks)...)
	}
	return parts, nil
}

// trimOne trims a panel: once, or once for each side of each seam drawn across
// it.
func (c *cutter) trimOne(i int, cuts []cutout, b border) ([]trimmedPanel, error) {
	p := &c.panels[i]
	lines, err := p.cutLines(cuts, b)
	if err != nil || lines.gone {
		return nil, err
	}
	if len(lines.seams) > mostAcross {
		return nil, fmt.Errorf("%d drawn seams run across panel %q; %d are the most", len(lines.seams), p.name, mostAcross)
	}
	sides := make([][2]chain, len(lines.seams))
	for k, s := range lines.seams {
		sides[k] = c.addSeam(s)
	}
	var out []trimmedPanel
	for mask := range 1 << len(sides) {
		open := append([]chain(nil), lines.open...)
		for k := range sides {
			open = append(open, sides[k][mask>>k&1])
		}
		loops, holes, err := p.trim(b, open, lines.closed)
		if err != nil {
			return nil, err
		}
		out = append(out, trimmedPanel{i, loops, holes})
	}
	return out, nil
}

func (p *rawPanel) addBreak(breaks [][]float64, b border, at place) {
	s := p.sides[b.side[at.seg]]
	if s.seam >= 0 {
		breaks[s.seam] = append(breaks[s.seam], s.position(b.step[at.seg], at.t))
	}
}

func (s side) position(step int, t float64) float64 {
	return s.at[step] + t*(s.at[step+1]-s.at[step])
}

// distinct sorts and drops values nearer than rounding.
func distinct(v []float64) []float64 {
	sort.Float64s(v)
	var out []float64
	for _, x := range v {
		if len(out) == 0 || x-out[len(out)-1] > geom.Coincident {
			out = append(out, x)
		}
	}
	return out
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

// walk follows the border from one place to another and cuts it where the fate
// changes.
func (p *rawPanel) walk(b border, from, to place, breaks [][]float64) []rawEdge {
	var out []rawEdge
	n := len(b.from)
	seg, t := from.seg, from.t
	for steps := 0; steps <= n; steps++ {
		end := 1.0
		last := seg == to.seg && (to.t > t || steps > 0)
		if last {
			end = to.t
		}
		out = p.append(out, b, seg, t, end, breaks)
		if last {
			break
		}
		seg, t = (seg+1)%n, 0
	}
	return out
}

// append adds the border from share t0 to t1 of a segment, cut at the breaks of
// its seam.
func (p *rawPanel) append(out []rawEdge, b border, seg int, t0, t1 float64, breaks [][]float64) []rawEdge {
	s := p.sides[b.side[seg]]
	shares := []float64{t0, t1}
	if s.seam >= 0 {
		a, z := s.at[b.step[seg]], s.at[b.step[seg]+1]
		for _, x := range breaks[s.seam] {
			if t := (x - a) / (z - a); t > t0 && t < t1 && math.Abs(x-a-t0*(z-a)) > geom.Coincident && math.Abs(x-a-t1*(z-a)) > geom.Coincident {
				shares = append(shares, t)
			}
		}
		sort.Float64s(shares)
	}
	for i := 0; i+1 < len(shares); i++ {
		out = p.appendChord(out, b, seg, shares[i], shares[i+1], breaks)
	}
	return out
}

func (p *rawPanel) appendChord(out []rawEdge, b border, seg int, t0, t1 float64, breaks [][]float64) []rawEdge {
	s := p.sides[b.side[seg]]
	a, z := p.surf.Flat[b.from[seg]], p.surf.Flat[b.to[seg]]
	from, to := geom.Lerp(a, z, t0), geom.Lerp(a, z, t1)
	fresh := len(out) == 0 || out[len(out)-1].side != b.side[seg] || out[len(out)-1].kind == Opening
	var p0, p1 float64
	if s.seam >= 0 {
		p0, p1 = s.position(b.step[seg], t0), s.position(b.step[seg], t1)
		fresh = fresh || isBreak(breaks[s.seam], p0)
	}
	if fresh {
		e := rawEdge{seam: s.seam, along: s.along, pts: []r2.Vec{from}, from: p0, to: p0, side: b.side[seg], gap: s.gap}
		if s.seam == atHinge {
			e.kind = Hinge
		}
		out = append(out, e)
	}
	e := &out[len(out)-1]
	if s.seam >= 0 {
		e.from, e.to = min(e.from, p0, p1), max(e.to, p0, p1)
	}
	e.pts, e.segs = append(e.pts, to), append(e.segs, seg)
	return out
}

func isBreak(breaks []float64, x float64) bool {
	i := sort.SearchFloat64s(breaks, x-geom.Coincident)
	return i < len(breaks) && math.Abs(breaks[i]-x) <= geom.Coincident
}

// joinEnds puts the last edge before the first if the border's beginning cut
// one edge in two.
func joinEnds(edges []rawEdge) []rawEdge {
	n := len(edges)
	if n < 2 {
		return edges
	}
	first, last := edges[0], edges[n-1]
	if first.kind == Opening || last.kind == Opening || first.side != last.side || first.seam != atRim {
		return edges
	}
	first.pts = append(append([]r2.Vec(nil), last.pts...), first.pts[1:]...)
	first.segs = append(append([]int(nil), last.segs...), first.segs...)
	return append([]rawEdge{first}, edges[1:n-1]...)
}

// adjacent is the triangle that a border segment belongs to, -1 for none.
func (p *rawPanel) adjacent(b border, seg int) int {
	for ti, t := range p.surf.T {
		for k := range 3 {
			if t[k] == b.from[seg] && t[(k+1)%3] == b.to[seg] {
				return ti
			}
		}
	}
	return -1
}

// normalsAlong gives, for each chord of an edge, the outward normal of the
// triangle beside it and the arc length of its middle on the seam.
func (p *rawPanel) normalsAlong(b border, e rawEdge) (at []float64, normals []r3.Vec) {
	for _, seg := range e.segs {
		s := p.sides[b.side[seg]]
		ti := p.adjacent(b, seg)
		if s.seam < 0 || ti < 0 {
			continue
		}
		at = append(at, s.position(b.step[seg], 0.5))
		normals = append(normals, p.surf.normal(ti))
	}
	return at, normals
}
