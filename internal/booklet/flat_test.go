package booklet

import (
	"context"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func blade(t *testing.T, share float64) *pattern.Piece {
	t.Helper()
	pts := []r2.Vec{{}, {X: 420, Y: 6}, {X: 560, Y: 40}, {X: 430, Y: 66}, {Y: 60}}
	o := pattern.Order{Name: "blade", Thickness: 10, Flat: &pattern.Flat{Points: pts, Corner: []bool{true, true, true, true, true}, Share: share}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, nil, nil, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return &set.Pieces[0]
}

// A flat piece is shown flat, with its size and what that rests on, and nothing
// is said of a body.
func TestOverview_flatPiece(t *testing.T) {
	for name, size := range sizes {
		p := blade(t, 0.08)
		pages := Overview(p, size[0], size[1], units.MM)
		if len(pages) != 1 {
			t.Fatalf("%s: %d pages, want 1", name, len(pages))
		}
		checkPage(t, pages[0])
		_, all := textsOf(pages[0])
		for _, want := range []string{"F · blade", "Draft: do not cut", "560 mm", "66 mm", "± 45 mm", "how far it stood from the camera", "10 mm thick", "F1 cut 1"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: the page does not say %q", name, want)
			}
		}
		for _, no := range []string{"body", "Clearance", "neutral", "wearer", "Seams"} {
			if strings.Contains(all, no) {
				t.Errorf("%s: the page speaks of %q", name, no)
			}
		}
		shape := 0
		for _, it := range pages[0].Items {
			if path, ok := it.(*draw.Path); ok && path.Layer == "cut" {
				shape++
				box := geom.Bounds(path.Subpaths[0])
				if got, want := (box.Max.X-box.Min.X)/(box.Max.Y-box.Min.Y), 560./66; got < 0.98*want || got > 1.02*want {
					t.Errorf("%s: the outline is drawn %.2f times as wide as high, want %.2f", name, got, want)
				}
			}
		}
		if shape != 1 {
			t.Errorf("%s: the outline is drawn %d times", name, shape)
		}
	}
}
