package pattern

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// bevel is half the angle between the panels on either side of an edge, where
// each must be cut off square for them to close.
func (a *assembly) bevel(raw *rawPanel, b border, e rawEdge, partner EdgeRef) Bevel {
	other := &a.blanks.panels[a.parts[partner.Panel].raw]
	ob := other.border()
	at, mine := raw.normalsAlong(b, e)
	oat, theirs := other.normalsAlong(ob, a.parts[partner.Panel].edges[partner.Edge])
	out := Bevel{Min: math.Inf(1)}
	convex := 0.0
	for i, n := range mine {
		j := nearest(oat, at[i])
		if j < 0 {
			continue
		}
		half := foldAngle(n, theirs[j]) / 2
		out.Min, out.Max = min(out.Min, half), max(out.Max, half)
		seg := e.segs[min(i, len(e.segs)-1)]
		dir := r3.Sub(raw.surf.Bent[b.to[seg]], raw.surf.Bent[b.from[seg]])
		convex += r3.Dot(theirs[j], r3.Cross(dir, n))
	}
	if math.IsInf(out.Min, 1) {
		return Bevel{}
	}
	out.Undercut = convex >= 0
	return out
}

func nearest(at []float64, x float64) int {
	best, d := -1, math.Inf(1)
	for i, v := range at {
		if math.Abs(v-x) < d {
			best, d = i, math.Abs(v-x)
		}
	}
	return best
}

// beyond is how far outside the seam line the traced face is cut, mm: the outer face of
// a bevelled joint reaches (1-k)·t·tan(fold/2) beyond the neutral line, the inner face
// stops k·t·tan(fold/2) short of it, and where they fold inwards it is the other way.
// Of a bevel that changes along the edge its middle counts.
// Source: the mitre setback t·tan(fold/2) of two plates.
func (a *assembly) beyond(e Edge) float64 {
	f := a.foam
	half := (e.Bevel.Min + e.Bevel.Max) / 2
	d := 0.0
	switch f.traced {
	case Outer:
		d = (1 - f.k) * f.thickness * math.Tan(half)
	case Inner:
		d = -f.k * f.thickness * math.Tan(half)
	}
	if !e.Bevel.Undercut {
		d = -d
	}
	if math.Abs(d) < leastBeyond || e.Bevel.Max < SquareBelow {
		return 0
	}
	return d
}

// leastBeyond is the least distance of a line to cut from its seam line, mm (judgement:
// less than a knife strays).
const leastBeyond = 0.3

// SquareBelow is the bevel, rad, under which a square cut closes well enough (common
// practice, no source: a knife strays as much).
const SquareBelow = 8 * math.Pi / 180

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
