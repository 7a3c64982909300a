package booklet

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The tube that these tests draw: an upright prism of panels, each of flat
// strips, with a round hole in its first panel, the one to the wearer's left
// of the front.
const (
	tubeRadius = 60.0
	tubeHeight = 150.0
	tubeStrips = 6 // a panel
	holeRadius = 15.0
)

func tube(panels int) *pattern.Piece {
	p := &pattern.Piece{
		Name: "left vambrace", Template: "vambrace", Title: "Vambrace", About: "Covers the forearm from the wrist to below the elbow.",
		Code: "V", Side: body.Left, Copies: 1, Thickness: 6, K: 0.5, Asked: 3, Clearance: 3.4, Deviation: 2.2, PushedOut: 0.8, Weight: 0.184,
		Frame:    geom.Frame{O: r3.Vec{X: 300, Y: 900}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}},
		Draft:    true,
		DraftWhy: "Measure the forearm girth: 261 mm ± 14 mm is estimated.",
		Governs: []pattern.Governing{
			{Measurement: body.Measurement{Name: "forearm girth flexed", Side: body.Left, Value: 261, SD: 7}},
			{Measurement: body.Measurement{Name: "wrist girth", Value: 172, SD: 2, Origin: body.Taped}, Good: true},
		},
		Settings: []pattern.Setting{{Name: "ease", Value: 12, Unit: "mm", Typed: true}, {Name: "flare", Value: 0.2, Unit: "deg"}, {Name: "ridges", Value: 3}},
		Notes:    []string{"Opens at the seam inside the arm."},
	}
	w := 2 * tubeRadius * math.Sin(math.Pi/float64(panels*tubeStrips)) // of a strip
	for k := range panels {
		p.Panels = append(p.Panels, tubePanel(k, panels, w))
		kind := pattern.Butt
		if k == panels-1 {
			kind = pattern.Closure
		}
		p.Seams = append(p.Seams, pattern.Seam{Number: k + 1, Kind: kind, Length: tubeHeight, Spans: []pattern.Span{
			{To: tubeHeight, Sides: [2]pattern.EdgeRef{{Panel: k, Edge: 1}, {Panel: (k + 1) % panels, Edge: 3}}}}})
	}
	return p
}

func tubePanel(k, panels int, w float64) pattern.Panel {
	panel := pattern.Panel{Number: k + 1, Label: fmt.Sprintf("V%d", k+1), Name: fmt.Sprintf("side %d", k+1), Copies: 1, Up: r2.Vec{Y: 1}}
	s := &panel.Surface
	for i := range tubeStrips + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k*tubeStrips+i) / float64(panels*tubeStrips))
		for _, y := range []float64{0, tubeHeight} {
			s.Flat = append(s.Flat, r2.Vec{X: w * float64(i), Y: y})
			s.Bent = append(s.Bent, r3.Vec{X: tubeRadius * sin, Y: y, Z: tubeRadius * cos})
		}
		if i > 0 {
			a := 2 * (i - 1)
			s.T = append(s.T, [3]int{a, a + 2, a + 1}, [3]int{a + 1, a + 2, a + 3})
		}
	}
	var low, high []r2.Vec
	for i := range tubeStrips + 1 {
		low = append(low, s.Flat[2*i])
		high = append(high, s.Flat[2*i+1])
	}
	high = geom.Reversed(high)
	right := []r2.Vec{low[tubeStrips], high[0]}
	left := []r2.Vec{high[tubeStrips], low[0]}
	kind := func(seam int) pattern.EdgeKind {
		if seam == panels {
			return pattern.Closure
		}
		return pattern.Butt
	}
	before := (k+panels-1)%panels + 1
	bevel := pattern.Bevel{Min: 0.2, Max: 0.21, Undercut: true}
	panel.Edges = []pattern.Edge{
		{Kind: pattern.Rim, Line: low, Length: geom.Length(low)},
		{Kind: kind(k + 1), Seam: k + 1, Span: 1, Line: right, Length: tubeHeight, Bevel: bevel},
		{Kind: pattern.Rim, Line: high, Length: geom.Length(high)},
		{Kind: kind(before), Seam: before, Span: 1, Line: left, Length: tubeHeight, Bevel: bevel},
	}
	panel.Outline = panel.Border()
	if k == 0 {
		c := r2.Vec{X: w * tubeStrips / 2, Y: tubeHeight * 0.7}
		panel.Holes = [][]r2.Vec{circle(c, holeRadius)}
	}
	return panel
}

// circle runs clockwise, as holes do.
func circle(c r2.Vec, r float64) []r2.Vec {
	var out []r2.Vec
	for i := range 36 {
		sin, cos := math.Sincos(-2 * math.Pi * float64(i) / 36)
		out = append(out, r2.Add(c, r2.Scale(r, r2.Vec{X: cos, Y: sin})))
	}
	return out
}
