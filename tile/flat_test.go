package tile

import (
	"context"
	"math"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// drawnFlat is a traced shape of known size: a rectangle with a half ellipse
// at one end, 180 mm long and 90 mm across.
func drawnFlat(t *testing.T, share float64) *pattern.Set {
	t.Helper()
	pts := []r2.Vec{{Y: 90}, {}, {X: 100}}
	corner := []bool{true, true, true}
	for i := 1; i < 12; i++ {
		s, c := math.Sincos(math.Pi * (float64(i)/12 - 0.5))
		pts, corner = append(pts, r2.Vec{X: 100 + 80*c, Y: 45 + 45*s}), append(corner, false)
	}
	pts, corner = append(pts, r2.Vec{X: 100, Y: 90}), append(corner, true)
	o := pattern.Order{Name: "blade", Flat: &pattern.Flat{Points: pts, Corner: corner, Share: share, Known: true}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, nil, nil, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// A traced outline of known shape is as large on the page as it was traced: in
// the page's own paths, and as painted by an independent renderer (source:
// poppler's pdftoppm).
func TestPages_flatPieceAtTrueSize(t *testing.T) {
	plan := laid(t, drawnFlat(t, 0.02), "A4")
	pages := plan.Pages()
	page, outline := cutLine(t, pages)
	box := geom.Bounds(outline)
	size := r2.Sub(box.Max, box.Min)
	if size.X < size.Y { // turned on the page
		size.X, size.Y = size.Y, size.X
	}
	if math.Abs(size.X-180) > 0.05 || math.Abs(size.Y-90) > 0.05 {
		t.Errorf("%.3f × %.3f mm in the page's paths, want 180 × 90", size.X, size.Y)
	}
	if want := 100*90 + math.Pi*80*45/2; math.Abs(geom.Area(geom.CCW(outline))-want) > 0.002*want {
		t.Errorf("an area of %.1f mm², want %.1f within 0.2 %%", geom.Area(geom.CCW(outline)), want)
	}
	r := rasterised(t, written(t, pages), page+1, pages[page].Height)
	m := geom.Rigid{}
	for _, w := range plan.Sheets[0].Windows {
		m = w.PageFromPanel
	}
	at := func(x, y float64) r2.Vec { return m.Apply(r2.Vec{X: x, Y: y}) }
	measure := func(a, b r2.Vec) float64 { // across two lines of the outline, along an axis of the page
		if math.Abs(a.X-b.X) > math.Abs(a.Y-b.Y) {
			return math.Abs(r.uprightLine(t, a.X, a.Y) - r.uprightLine(t, b.X, b.Y))
		}
		return math.Abs(r.levelLine(t, a.X, a.Y) - r.levelLine(t, b.X, b.Y))
	}
	if long, across := measure(at(0, 45), at(180, 45)), measure(at(50, 0), at(50, 90)); math.Abs(long-180) > 0.1 || math.Abs(across-90) > 0.1 {
		t.Errorf("%.3f × %.3f mm as painted, want 180 × 90", long, across)
	}
}

// cutLine is the page with the outline of the one panel, and its ring.
func cutLine(t *testing.T, pages []draw.Page) (int, []r2.Vec) {
	t.Helper()
	for i, p := range pages {
		for _, it := range p.Items {
			if path, ok := it.(*draw.Path); ok && path.Closed && path.Layer == "cut" && len(path.Subpaths[0]) > 50 {
				return i, path.Subpaths[0]
			}
		}
	}
	t.Fatal("no page shows the panel")
	return 0, nil
}
