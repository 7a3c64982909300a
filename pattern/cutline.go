package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// outlineOf is the line to cut: the edges in turn, each where the face is cut that is
// traced, with the allowance of those that have one as a flap outside them.
func outlineOf(edges []Edge) []r2.Vec {
	var lines [][]r2.Vec
	var off []float64
	for i, e := range edges {
		before, next := edges[(i+len(edges)-1)%len(edges)], edges[(i+1)%len(edges)]
		if e.runsBack(next) || e.Length < max(geom.Coincident, e.off(), before.off(), next.off()) {
			continue // of one that is shorter than its corners, these are all that is left
		}
		line := e.cutLine()
		if before.runsBack(e) {
			line[0] = geom.Lerp(before.Line[0], e.Line[0], 0.5)
		}
		lines, off = append(lines, line), append(off, e.off())
	}
	for i := 0; i < len(lines) && len(lines) > 1; i++ {
		next := (i + 1) % len(lines)
		if far := max(off[i], off[next]); far > 0 {
			lines[i], lines[next] = cornered(lines[i], lines[next], far)
		}
	}
	var out []r2.Vec
	for _, line := range lines {
		out = append(out, line[:len(line)-1]...)
	}
	return geom.Distinct(out)
}

// cutOut gives the panel its line to cut. One that is narrower somewhere than its bevels
// take is cut on its seam lines.
func (p *Panel) cutOut() {
	p.Outline = outlineOf(p.Edges)
	if !slices.ContainsFunc(p.Edges, func(e Edge) bool { return e.Beyond != nil }) {
		return
	}
	if _, _, crosses := geom.Crossing(p.Outline); !crosses {
		return
	}
	for i := range p.Edges {
		p.Edges[i].Beyond = nil
	}
	p.Outline = outlineOf(p.Edges)
	p.Notes = append(p.Notes, "Cut it on the seam lines: it is narrower somewhere than its bevels take.")
}

// Extent is the outline of what is drawn of the panel: its line to cut and the seam lines
// that stand outside it.
func (p *Panel) Extent() []r2.Vec {
	if !slices.ContainsFunc(p.Edges, func(e Edge) bool { return slices.ContainsFunc(e.Beyond, func(d float64) bool { return d < 0 }) }) {
		return p.Outline
	}
	edges := slices.Clone(p.Edges)
	for i := range edges {
		out := slices.Clone(edges[i].Beyond)
		for j := range out {
			out[j] = max(out[j], 0)
		}
		edges[i].Beyond = out
	}
	ring := outlineOf(edges)
	if _, _, crosses := geom.Crossing(ring); crosses {
		return p.Outline
	}
	return ring
}

// cutLine is where the edge is cut, from one of its ends to the other.
func (e *Edge) cutLine() []r2.Vec {
	if e.Allowance == 0 {
		line := e.Line
		if len(e.Beyond) > 2 { // it bends a straight one
			line = divided(line, e.Length/bevelParts)
		}
		return geom.OffsetLineBy(line, e.BeyondAt)
	}
	n := len(e.Line)
	flap := geom.OffsetLine(e.Line, e.Allowance)
	mitre := min(e.Allowance, e.Length/4) / 2
	long := geom.Length(flap)
	line := append([]r2.Vec{e.Line[0]}, geom.Between(flap, mitre, long-mitre)...)
	return append(line, e.Line[n-1])
}

// BeyondAt is how far outside its seam line the edge is cut, mm, at a share of its length
// from the beginning of Line.
func (e *Edge) BeyondAt(share float64) float64 {
	if len(e.Beyond) == 0 {
		return 0
	}
	x := share * float64(len(e.Beyond)-1)
	i := min(int(x), len(e.Beyond)-2)
	return e.Beyond[i] + (x-float64(i))*(e.Beyond[i+1]-e.Beyond[i])
}

// off is how far from its seam line the edge is cut at most, mm.
func (e *Edge) off() float64 {
	most := 0.0
	for _, d := range e.Beyond {
		most = max(most, math.Abs(d))
	}
	return most
}

// How far two lines to cut are taken on to their corner, and how far from it their
// crossing is looked for, of what they stand off their seam lines: outside a corner
// sharper than about 30° they are joined by a straight cut.
const (
	takenOn   = 4.0
	lookedFor = 40.0
)

// cornered has the first of two lines end, and the second begin, where they meet near
// their corner, each taken on straight. Lines that do not are joined by a straight one.
// Both stand off their seam lines by no more than off.
func cornered(a, b []r2.Vec, off float64) (first, second []r2.Vec) {
	end, begin, far, reach := a[len(a)-1], b[0], takenOn*off, lookedFor*off
	on := append(slices.Clip(a), r2.Add(end, r2.Scale(far, r2.Unit(r2.Sub(end, a[len(a)-2])))))
	from := append([]r2.Vec{r2.Add(begin, r2.Scale(far, r2.Unit(r2.Sub(begin, b[1]))))}, b...)
	corner := geom.Lerp(end, begin, 0.5)
	least, at, i, j := reach, r2.Vec{}, -1, -1
	for k := len(on) - 2; k >= 0 && geom.DistToSegment(corner, on[k], on[k+1]) <= reach; k-- {
		for l := 0; l+1 < len(from) && geom.DistToSegment(corner, from[l], from[l+1]) <= reach; l++ {
			if q, ok := crossPoint(on[k], on[k+1], from[l], from[l+1]); ok && geom.Dist(q, corner) < least {
				least, at, i, j = geom.Dist(q, corner), q, k, l
			}
		}
	}
	if i < 0 {
		return append(slices.Clip(a), end), b // once more, as the last place is the next line's first
	}
	first, second = slices.Clone(on[:i+1]), from[j+1:]
	if n := len(first); geom.Dist(first[n-1], at) < geom.Coincident {
		first = first[:n-1]
	}
	if geom.Dist(second[0], at) < geom.Coincident {
		second = second[1:]
	}
	return append(first, at), append([]r2.Vec{at}, second...)
}

// crossPoint is where the segments ab and cd cross.
func crossPoint(a, b, c, d r2.Vec) (r2.Vec, bool) {
	u, v, w := r2.Sub(b, a), r2.Sub(d, c), r2.Sub(c, a)
	turn := r2.Cross(u, v)
	if turn == 0 {
		return r2.Vec{}, false
	}
	s, t := r2.Cross(w, v)/turn, r2.Cross(w, u)/turn
	return r2.Add(a, r2.Scale(s, u)), s >= 0 && s <= 1 && t >= 0 && t <= 1
}

// runsBack tells whether an edge crosses a fold whose two sides lie over each other
// on paper, as where foam is scored outside: the line to cut turns from one to the
// other in the middle, or it would run back on itself.
func (e *Edge) runsBack(next Edge) bool {
	return e.Kind == Hinge && r2.Dot(r2.Sub(e.Line[len(e.Line)-1], e.Line[0]), r2.Sub(next.Line[1], next.Line[0])) < 0
}
