package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// farthestPatch is how far a patch is moved off another, mm (judgement), and
// betweenPatches what is left between them.
const (
	farthestPatch  = 60.0
	betweenPatches = 2.0
)

// offTheOthers moves the middle of an upright patch by the least that brings it off
// the fastenings that the panel has already, as far as the panel has room: two
// cannot be glued on one place.
//
// only is the copy of the panel that it is on, as its mark says.
func (p *Panel) offTheOthers(q r2.Vec, w, h float64, only string) r2.Vec {
	var taken []r2.Box // where its middle may not be
	for _, m := range p.Marks {
		apart := only == oneCopy || m.Only == oneCopy || only != m.Only && only != "" && m.Only != ""
		if m.Kind == "fastening" && m.Close && !apart {
			b := geom.Bounds(m.Line)
			room := r2.Vec{X: w/2 + betweenPatches, Y: h/2 + betweenPatches}
			taken = append(taken, r2.Box{Min: r2.Sub(b.Min, room), Max: r2.Add(b.Max, room)})
		}
	}
	free := func(c r2.Vec) bool {
		for _, b := range taken {
			if c.X > b.Min.X+geom.Detail && c.X < b.Max.X-geom.Detail && c.Y > b.Min.Y+geom.Detail && c.Y < b.Max.Y-geom.Detail {
				return false
			}
		}
		return true
	}
	if free(q) {
		return q
	}
	xs, ys := []float64{q.X}, []float64{q.Y}
	for _, b := range taken {
		xs, ys = append(xs, b.Min.X, b.Max.X), append(ys, b.Min.Y, b.Max.Y)
	}
	best, least := q, math.Inf(1)
	for _, x := range xs {
		for _, y := range ys {
			c := p.offTheEdges(r2.Vec{X: x, Y: y}, w, h, fasteningInset)
			if d := geom.Dist(q, c); d < least && d <= farthestPatch && free(c) && p.cornersOn(c, w, h) >= p.cornersOn(q, w, h) {
				best, least = c, d
			}
		}
	}
	return best
}

// cornersOn is how many corners of an upright patch lie on the panel.
func (p *Panel) cornersOn(q r2.Vec, w, h float64) int {
	n := 0
	for _, c := range around(q, w, h, true) {
		if p.Covers(c) {
			n++
		}
	}
	return n
}
