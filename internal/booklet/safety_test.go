package booklet

import (
	"math"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// sizes are papers that makers have: A4 and US Letter.
var sizes = map[string][2]float64{"A4": {210, 297}, "Letter": {215.9, 279.4}}

// textBox is the upright box round a text.
func textBox(t *draw.Text) r2.Box {
	c := t.Corners()
	return geom.Bounds(c[:])
}

// checkPage holds what must be true of every page: all texts are inside the
// margins, none lies over another, and none is too small to read.
func checkPage(t *testing.T, p draw.Page) {
	t.Helper()
	const edge = 9.5 // mm: what home printers leave white is less
	var boxes []r2.Box
	var said []string
	for _, it := range p.Items {
		text, ok := it.(*draw.Text)
		if !ok {
			continue
		}
		b := textBox(text)
		if b.Min.X < edge || b.Min.Y < edge || b.Max.X > p.Width-edge || b.Max.Y > p.Height-edge {
			t.Errorf("%q leaves the page: %.1f,%.1f to %.1f,%.1f on %.0f × %.0f", text.S, b.Min.X, b.Min.Y, b.Max.X, b.Max.Y, p.Width, p.Height)
		}
		if text.Size < smallPrint {
			t.Errorf("%q is %.2f mm high, under %.2f", text.S, text.Size, float64(smallPrint))
		}
		for i, o := range boxes {
			if overlap(b, o) > 0.2 {
				t.Errorf("%q lies over %q", text.S, said[i])
			}
		}
		boxes, said = append(boxes, b), append(said, text.S)
	}
}

// overlap is how deep two boxes are in each other.
func overlap(a, b r2.Box) float64 {
	return min(min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X), min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y))
}

func TestSafety_fitsOnePageAndIsReadable(t *testing.T) {
	for name, s := range sizes {
		p := Safety(s[0], s[1])
		t.Run(name, func(t *testing.T) {
			checkPage(t, p)
			numbers, body := 0, math.Inf(1)
			for _, it := range p.Items {
				text, ok := it.(*draw.Text)
				if !ok {
					continue
				}
				if text.Align == draw.End {
					numbers++
				}
				if text.Color == (draw.Color{}) {
					body = min(body, text.Size)
				}
			}
			if numbers != 16 {
				t.Errorf("%d points, want 16", numbers)
			}
			if body < safetyText-1e-9 {
				t.Errorf("the text is %.2f mm high, want at least %.1f", body, safetyText)
			}
		})
	}
}

func TestSafety_smallPaperLosesNothing(t *testing.T) {
	checkPage(t, Safety(148, 210)) // A5
}

// Everything that is written in the points stands on the page, in order.
func TestSafety_losesNoWord(t *testing.T) {
	var words []string
	for _, it := range Safety(210, 297).Items {
		if text, ok := it.(*draw.Text); ok && text.Align == draw.Start {
			words = append(words, strings.Fields(text.S)...)
		}
	}
	got := strings.Join(words, " ")
	for _, s := range append([]string{safetyFirst, safetySources}, safetyPoints...) {
		if !strings.Contains(got, s) {
			t.Errorf("the page lacks %q", s)
		}
	}
}
