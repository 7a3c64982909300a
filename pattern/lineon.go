package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// gluedStep (detail): how finely a line on a panel is held against what it lies over or
// passes through, mm.
const gluedStep = 1.0

// lineWhere are the lines on the flat panel where its outer face passes through a
// plane, from which height is measured, at the places that are kept.
func (panel *Panel) lineWhere(p *Piece, height func(r3.Vec) float64, keep func(r3.Vec) bool) [][]r2.Vec {
	return panel.lineOn(panel.outerFace(p), height, keep)
}

// lineBelow is lineWhere on the surface that stands off the panel's neutral one by
// off, such as that of what lies over it.
func (panel *Panel) lineBelow(p *Piece, off float64, height func(r3.Vec) float64) [][]r2.Vec {
	return panel.lineOn(panel.standingOff(off), height, func(r3.Vec) bool { return true })
}

func (panel *Panel) lineOn(outer []r3.Vec, height func(r3.Vec) float64, keep func(r3.Vec) bool) [][]r2.Vec {
	var on [][2]r3.Vec // in the panel's plane
	for _, t := range panel.Surface.T {
		if ends, places, ok := panel.Surface.through(t, outer, height); ok {
			on = append(on, panel.stretches(ends, places, keep)...)
		}
	}
	var out [][]r2.Vec
	for _, chain := range geom.Chain(on) {
		var line []r2.Vec
		for _, v := range chain {
			line = append(line, r2.Vec{X: v.X, Y: v.Y})
		}
		if geom.Length(line) >= leastGlued {
			out = append(out, geom.Thin(line, geom.Detail))
		}
	}
	return out
}

// through is where a plane passes through a triangle, if it does: in the panel's plane
// and on its outer face, the same way through each triangle, so that the stretches
// follow each other.
func (s *Surface) through(t [3]int, outer []r3.Vec, height func(r3.Vec) float64) (ends, places [2]r3.Vec, ok bool) {
	found := 0
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		ha, hb := height(outer[a]), height(outer[b])
		if (ha < 0) == (hb < 0) {
			continue
		}
		end := 0
		if ha >= 0 {
			end = 1
		}
		if a > b { // as in the triangle on the other side
			a, b, ha, hb = b, a, hb, ha
		}
		share := ha / (ha - hb)
		q := geom.Lerp(s.Flat[a], s.Flat[b], share)
		ends[end], places[end] = r3.Vec{X: q.X, Y: q.Y}, geom.Lerp(outer[a], outer[b], share)
		found++
	}
	return ends, places, found == 2
}

// stretches are the parts of a line in the panel's plane whose places are kept and
// have foam.
func (panel *Panel) stretches(ends, places [2]r3.Vec, keep func(r3.Vec) bool) (on [][2]r3.Vec) {
	n := int(geom.Dist(ends[0], ends[1])/gluedStep) + 1
	for k := range n {
		from, to := float64(k)/float64(n), float64(k+1)/float64(n)
		a, b := geom.Lerp(ends[0], ends[1], from), geom.Lerp(ends[0], ends[1], to)
		middle := geom.Lerp(a, b, 0.5)
		if a != b && keep(geom.Lerp(places[0], places[1], (from+to)/2)) && panel.Covers(r2.Vec{X: middle.X, Y: middle.Y}) {
			on = append(on, [2]r3.Vec{a, b})
		}
	}
	return on
}

// holds tells whether a point of a flat part's plane lies in the part.
func (s *Surface) holds(p r3.Vec) bool {
	for _, t := range s.T {
		if _, inside := weights(p, s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]); inside {
			return true
		}
	}
	return false
}

// outerFace are the places of the panel's vertices on its outer face.
func (p *Panel) outerFace(of *Piece) []r3.Vec {
	return p.standingOff((1 - of.K) * of.Foam(p))
}

// standingOff are the places of the panel's vertices moved outwards.
func (p *Panel) standingOff(off float64) []r3.Vec {
	out := make([]r3.Vec, len(p.Surface.Bent))
	for i, n := range geom.VertexNormals(geom.Mesh{V: p.Surface.Bent, T: p.Surface.T}) {
		out[i] = r3.Add(p.Surface.Bent[i], r3.Scale(off, n))
	}
	return out
}
