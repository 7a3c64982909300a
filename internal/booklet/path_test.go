package booklet

import (
	"math"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Everything is on the picture, in its own pane, and what is drawn flat is the
// panels themselves at one scale.
func TestPath_showsTheWay(t *testing.T) {
	p := tube(4)
	skin := geom.Mesh{V: []r3.Vec{{X: -300}, {X: 300}, {Y: 1800}}, T: [][3]int{{0, 1, 2}}}
	sheet := draw.Page{Width: 210, Height: 297, Items: []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{{{X: 10, Y: 10}, {X: 200, Y: 287}}}}}}
	page := Path(p, skin, sheet)
	var outlines []float64
	var diagonal [][]r2.Vec
	for _, it := range page.Items {
		path, ok := it.(*draw.Path)
		if !ok {
			continue
		}
		for _, s := range path.Subpaths {
			b := geom.Bounds(s)
			if b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > page.Width || b.Max.Y > page.Height {
				t.Fatalf("a line from %v to %v leaves the picture", b.Min, b.Max)
			}
		}
		if path.Layer == "cut" && path.Stroke.Width > 0.4 {
			outlines = append(outlines, geom.Area(path.Subpaths[0]))
		}
		if path.Layer == "" {
			diagonal = append(diagonal, path.Subpaths...)
		}
	}
	if len(outlines) != 4 {
		t.Fatalf("%d templates are drawn, want 4", len(outlines))
	}
	for i, a := range outlines {
		if share, first := a/geom.Area(p.Panels[i].Outline), outlines[0]/geom.Area(p.Panels[0].Outline); math.Abs(share-first) > 1e-9 {
			t.Errorf("template %d is drawn at a share of %.6f, the first at %.6f", i+1, share, first)
		}
	}
	if len(diagonal) != 1 {
		t.Fatalf("the page has %d lines, want its 1", len(diagonal))
	}
	d := r2.Sub(diagonal[0][1], diagonal[0][0])
	if math.Abs(d.Y/d.X-277.0/190) > 1e-9 {
		t.Errorf("the page is stretched: its diagonal runs %v", d)
	}
}
