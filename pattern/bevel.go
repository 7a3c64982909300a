package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// bevel is half the angle between the panels on either side of an edge, where
// each must be cut off square for them to close; and the same at equal distances from
// end to end of the edge.
func (a *assembly) bevel(raw *rawPanel, b border, e rawEdge, partner EdgeRef) (whole Bevel, along []float64) {
	other := &a.blanks.panels[a.parts[partner.Panel].raw]
	ob := other.border()
	at, mine := raw.normalsAlong(b, e)
	oat, theirs := other.normalsAlong(ob, a.parts[partner.Panel].edges[partner.Edge])
	whole = Bevel{Min: math.Inf(1)}
	var shares, halves []float64
	convex := 0.0
	for i, n := range mine {
		j := nearest(oat, at[i])
		if j < 0 {
			continue
		}
		half := foldAngle(n, theirs[j]) / 2
		whole.Min, whole.Max = min(whole.Min, half), max(whole.Max, half)
		shares, halves = append(shares, e.share(at[i])), append(halves, half)
		seg := e.segs[min(i, len(e.segs)-1)]
		dir := r3.Sub(raw.surf.Bent[b.to[seg]], raw.surf.Bent[b.from[seg]])
		convex += r3.Dot(theirs[j], r3.Cross(dir, n))
	}
	if len(halves) == 0 {
		return Bevel{}, nil
	}
	whole.Undercut = convex >= 0
	return whole, evenly(shares, halves)
}

// share is how far along the edge's line a place of its seam is, of 1.
func (e *rawEdge) share(at float64) float64 {
	s := (at - e.from) / max(e.to-e.from, geom.Coincident)
	if !e.along {
		return 1 - s
	}
	return s
}

// bevelParts (detail): so many parts of an edge have the bevel's mean about each of their
// ends, as facets are turned a little to and fro.
const bevelParts = 8

// evenly gives values that are known at some shares of a line at equal distances from
// end to end: the mean of those nearby.
func evenly(shares, values []float64) []float64 {
	out := make([]float64, bevelParts+1)
	for j := range out {
		s, sum, n := float64(j)/bevelParts, 0.0, 0.0
		for i, v := range values {
			if math.Abs(shares[i]-s) <= 0.5/bevelParts {
				sum, n = sum+v, n+1
			}
		}
		if out[j] = sum / n; n == 0 {
			out[j] = values[nearest(shares, s)]
		}
	}
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

// beyond is how far outside the seam line the traced face is cut, mm, at equal distances
// from end to end, of the bevel there: the outer face of a bevelled joint reaches
// (1-k)·t·tan(fold/2) beyond the neutral line, the inner face stops k·t·tan(fold/2) short
// of it, and where they fold inwards it is the other way. nil: it is cut on the line.
// Source: the mitre setback t·tan(fold/2) of two plates.
func (a *assembly) beyond(whole Bevel, along []float64) []float64 {
	if whole.Max < SquareBelow {
		return nil
	}
	if whole.Even() {
		along = []float64{whole.Middle(), whole.Middle()}
	}
	out, most := make([]float64, len(along)), 0.0
	for i, half := range along {
		out[i] = a.foam.setback() * math.Tan(half)
		if !whole.Undercut {
			out[i] = -out[i]
		}
		most = max(most, math.Abs(out[i]))
	}
	if most < leastBeyond {
		return nil
	}
	return out
}

// setback is how far outside a seam line that turns by 90° the traced face is cut, mm.
func (f foam) setback() float64 {
	switch f.traced {
	case Outer:
		return (1 - f.k) * f.thickness
	case Inner:
		return -f.k * f.thickness
	}
	return 0
}

// even is by how much a bevel may vary that is told, and cut, as one, rad (judgement:
// half of it either way is what a knife strays).
const even = 3 * math.Pi / 180

// Even tells whether the bevel is much the same all along.
func (b Bevel) Even() bool { return b.Max-b.Min < even }

// Middle is the bevel between the least and the greatest.
func (b Bevel) Middle() float64 { return (b.Min + b.Max) / 2 }

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
