package tile

import (
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestByThickness_groupsPanelsByTheirFoam(t *testing.T) {
	p := &pattern.Piece{Thickness: 6, Panels: []pattern.Panel{{Label: "G1"}, {Label: "G2", Thick: 3}, {Label: "G3"}, {Label: "G4", Thick: 12, Role: pattern.Pad}}}
	if got, want := byThickness(p), "Cut of 12 mm soft foam: G4; 6 mm foam: G1, G3; 3 mm foam: G2."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := byThickness(&pattern.Piece{Thickness: 6, Panels: p.Panels[:1]}); got != "" {
		t.Errorf("one foam: %q", got)
	}
}

// An edge that turns a corner is labelled on both sides of it; a label as near to
// another edge is not clearly at its own.
func TestSeamLabels_areClearAtCornersAndBesideOtherEdges(t *testing.T) {
	line := []r2.Vec{{}, {X: 20}, {X: 40}, {X: 40, Y: 30}}
	if got := atCorners(line); len(got) != 2 || len(got[0]) != 3 || len(got[1]) != 2 {
		t.Errorf("parted into %v", got)
	}
	own, other := line[:3], line[2:]
	for _, c := range []struct {
		at   r2.Vec
		want bool
	}{{r2.Vec{X: 20, Y: 3}, true}, {r2.Vec{X: 37, Y: 3}, false}, {r2.Vec{X: 35.5, Y: 3}, false}, {r2.Vec{X: 34, Y: 3}, true}} {
		if got := clearlyBeside(c.at, own, [][]r2.Vec{other}); got != c.want {
			t.Errorf("a text at %v is clearly beside its edge: %t", c.at, got)
		}
	}
}

// The legend explains the letters of a seam's parts, and stays above the bars.
func TestCheck_legend(t *testing.T) {
	for _, paper := range []string{"A4", "Letter", "300 x 400 mm"} {
		plan := laid(t, synthetic(), paper)
		page := plan.Pages()[0]
		all := ""
		for _, it := range page.Items {
			text, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			all += text.S + " "
			if strings.Contains(text.S, "OUTSIDE of the piece") || strings.Contains(text.S, "5b") {
				if low := plan.Paper.Area().Min.Y; text.At.Y < low {
					t.Errorf("%s: %q stands at %.1f mm, under %.1f mm", paper, text.S, text.At.Y, low)
				}
			}
		}
		for _, want := range []string{"5, 5b, 5c", "each part meets the one of the same letter"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: the legend does not say %q", paper, want)
			}
		}
	}
}
