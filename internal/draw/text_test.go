package draw

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// Widths are those of the font's own table (source: DejaVu Sans 2.37, hmtx: A
// 1401, space 651, of 2048 units an em).
func TestTextWidth(t *testing.T) {
	if got, want := TextWidth("A A", 10, false), (1401+651+1401)*10/2048.0; math.Abs(got-want) > 1e-3 {
		t.Errorf("width %v, want %v", got, want)
	}
	if TextWidth("A", 10, true) <= TextWidth("A", 10, false) {
		t.Error("bold is not wider")
	}
}

func TestCorners(t *testing.T) {
	text := &Text{At: r2.Vec{X: 50, Y: 20}, Size: 10, Angle: math.Pi / 2, Align: End, S: "A"}
	c := text.Corners()
	w := TextWidth("A", 10, false)
	want := [4]r2.Vec{{X: 52.4, Y: 20 - w}, {X: 52.4, Y: 20}, {X: 50 - 7.29, Y: 20}, {X: 50 - 7.29, Y: 20 - w}}
	for i := range c {
		if r2.Norm(r2.Sub(c[i], want[i])) > 1e-9 {
			t.Errorf("corner %d is %v, want %v", i, c[i], want[i])
		}
	}
}

func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{"a\nb": "a b", "e\u0301": "é", "\U0001F600": "?", "\xff": "?", "\u200bx\x07": "x", "漢": "?", "3 ▸ V2 – ½ ×": "3 ▸ V2 – ½ ×"} {
		if got := Printable(in); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}
