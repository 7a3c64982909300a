package pattern

import (
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

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
		e := rawEdge{seam: s.seam, along: s.along, pts: []r2.Vec{from}, from: p0, to: p0, side: b.side[seg], gap: s.gap, name: s.ring}
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
