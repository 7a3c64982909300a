package tile

import (
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// hatch draws the hatching where foam is heated, but for where texts stand.
func (d *drawing) hatch() {
	toPanel := d.w.PageFromPanel.Inverse()
	for _, m := range d.panel.Marks {
		if !isHeat(m) {
			continue
		}
		line := d.w.PageFromPanel.ApplyAll(m.Line)
		for i := 0; i+1 < len(line); i++ {
			for _, run := range d.besideTexts(line[i], line[i+1]) {
				d.line(toPanel.ApplyAll(run[:]), false, hatching[m.Kind], "mark")
			}
		}
	}
}

// besideTexts are the stretches of a segment, on the page, outside all texts.
func (d *drawing) besideTexts(a, b r2.Vec) [][2]r2.Vec {
	var in [][2]float64 // shares of the segment
	for _, r := range d.rooms {
		for _, box := range r.taken {
			if from, to := shareIn(box, a, b); from < to {
				in = append(in, [2]float64{from, to})
			}
		}
	}
	slices.SortFunc(in, func(x, y [2]float64) int { return slices.Compare(x[:], y[:]) })
	var out [][2]r2.Vec
	at := 0.0
	for _, s := range append(in, [2]float64{1, 1}) {
		if s[0] > at {
			out = append(out, [2]r2.Vec{geom.Lerp(a, b, at), geom.Lerp(a, b, s[0])})
		}
		at = max(at, s[1])
	}
	return out
}

// shareIn is from where to where a segment runs in a box, as shares of its length; from
// is not less than to if it does not. (Clipping against the box's four sides.)
func shareIn(box [4]r2.Vec, a, b r2.Vec) (from, to float64) {
	from, to = 0, 1
	for i, p := range box {
		side := r2.Sub(box[(i+1)%4], p)
		d, e := r2.Cross(side, r2.Sub(a, p)), r2.Cross(side, r2.Sub(b, p)) // positive inside
		switch {
		case d <= 0 && e <= 0:
			return 1, 0
		case d < 0:
			from = max(from, d/(d-e))
		case e < 0:
			to = min(to, d/(d-e))
		}
	}
	return from, to
}
