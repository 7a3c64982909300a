package sheet

import (
	"math"
	"strings"
	"testing"

	"tasset/internal/draw"
)

var papers = []Paper{{Name: "A4", Width: 210, Height: 297}, {Name: "Letter", Width: 215.9, Height: 279.4}}

// The size of a pixel at the subject: 0.33, 0.50, 0.67 and 1.0 mm at 1, 1.5, 2
// and 3 m for 26 mm and 4000 × 3000 pixels; a face 88 mm before the ruler reads
// larger by 88 / (D − 88) (source: similar triangles, and 43.27 mm as the
// diagonal of 36 × 24 mm, CIPA DCG-001).
func TestGuide_numbersAreArithmetic(t *testing.T) {
	g := NewGuide(Device{F35: 26, Width: 4000, Height: 3000})
	arithmetic := 0
	for _, c := range g.Costs {
		if len(c.MM) != len(g.Metres) {
			t.Errorf("%q has %d numbers for %d distances", c.Fault, len(c.MM), len(g.Metres))
		}
		for i, m := range g.Metres {
			want := math.NaN()
			switch {
			case c.Fault == "One pixel":
				want = m * 1000 * 43.27 / 26 / 5000
			case strings.HasPrefix(c.Fault, "Reading the face"):
				want = 119.5 * 0.088 / (m - 0.088)
			case strings.HasPrefix(c.Fault, "Ruler 20 mm"):
				want = 196.3 * 0.02 / m
			case strings.HasPrefix(c.Fault, "Ruler leaning 15"):
				want = 196.3 * (1/0.9659258 - 1)
			}
			if !math.IsNaN(want) {
				arithmetic++
			}
			if !math.IsNaN(want) && math.Abs(c.MM[i]-want) > 0.005 {
				t.Errorf("%q at %g m: %.3f, want %.3f", c.Fault, m, c.MM[i], want)
			}
		}
	}
	if arithmetic != 4*len(g.Metres) {
		t.Errorf("%d numbers were checked", arithmetic)
	}
}

func TestGuide_onPagesAndInText(t *testing.T) {
	for _, d := range []Device{{}, {F35: 77, Width: 4000, Height: 3000}, {F35: 13, Width: 8000, Height: 6000}} {
		g := NewGuide(d)
		for _, p := range papers {
			pages, err := g.Pages(p)
			if err != nil {
				t.Fatal(err)
			}
			for _, page := range pages {
				inside(t, page)
			}
			var all strings.Builder
			for _, page := range pages {
				for _, w := range textsOn(page) {
					all.WriteString(w.S + " ")
				}
			}
			for _, s := range g.Sections {
				for _, l := range s.Lines {
					if !strings.Contains(all.String(), draw.Printable(l)) {
						t.Errorf("the pages lack %q", l)
					}
				}
			}
		}
		for _, l := range strings.Split(g.Text(80), "\n") {
			if n := len([]rune(l)); n > 80 && !strings.HasSuffix(l, "arithmetic") && !strings.HasSuffix(l, "simulated") {
				t.Errorf("%d letters: %q", n, l)
			}
		}
	}
	// 2.1 m of height on 34.6 mm, the long side of 4 : 3 with the diagonal of 36 × 24,
	// by a lens of 52 mm: 3.16 m.
	if text := NewGuide(Device{F35: 52, Width: 4000, Height: 3000}).Text(10000); !strings.Contains(text, "Whole body: the lens at least 3.2 m away (") {
		t.Errorf("of a longer lens the guide says\n%s", text)
	}
	if text := NewGuide(Device{}).Text(10000); !strings.Contains(text, "Whole body: the lens 3.0 m away if there is room, at least") {
		t.Errorf("of the usual lens the guide says\n%s", text)
	}
	if _, err := NewGuide(Device{}).Pages(Paper{Name: "small", Width: 148, Height: 210}); err == nil {
		t.Error("the guide was put on paper that is too small")
	}
}
