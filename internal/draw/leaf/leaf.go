// Package leaf draws what stands round the drawing on every printed page,
// whatever the drawing is: bars to measure the print by, what the page says of
// itself, and the marks at which pages are joined to a larger sheet.
package leaf

import (
	"fmt"
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// What a page keeps free of its drawing, mm.
const (
	Margin = 10 // printers do not reach the paper's edge (common practice; see the largest unprintable edges, about 7 mm)
	Bottom = 18 // above the margin: bars along x, and what the page says of itself
	Left   = 9  // beside the margin: bars along y
)

// Area is the part of a page on which a drawing may lie.
func Area(width, height float64) draw.Rect {
	return draw.Rect{
		Min: r2.Vec{X: Margin + Left, Y: Margin + Bottom},
		Max: r2.Vec{X: width - Margin, Y: height - Margin},
	}
}

// Frame is two bars that make two sides of a 100 mm square, and two lines of
// text that end before x = right: what the page is, and after the advice on
// printing what else it says.
func Frame(right float64, title, says []string) []draw.Item {
	corner := r2.Vec{X: Margin + 5, Y: Margin + 5}
	items := append(Bar(corner, false), Bar(corner, true)...)
	items = append(items, Square(corner, 4)...)
	const left = Margin + Left + 1
	says = append([]string{"Print at 100 % / actual size: bars must measure 100 mm and 4 in"}, says...)
	return append(items,
		fitted(left, right, Margin+14.2, 3, true, joined(title)),
		fitted(left, right, Margin+10.6, 2.5, false, joined(says)))
}

// Corrected is what a page says whose axes are stretched by parts of their length
// to make up for a printer; "" if they are not.
func Corrected(x, y float64) string {
	if x == 0 && y == 0 {
		return ""
	}
	return fmt.Sprintf("corrected for this printer: x %+.2f %%, y %+.2f %%", x*100, y*100)
}

func joined(ss []string) string {
	var out []string
	for _, s := range ss {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, " · ")
}

// fitted is a line of text between two x, smaller if it must be.
func fitted(from, to, y, size float64, bold bool, s string) draw.Item {
	if w := draw.TextWidth(s, size, bold); w > to-from {
		size *= (to - from) / w
	}
	return &draw.Text{At: r2.Vec{X: from, Y: y}, Size: size, Bold: bold, S: s, Layer: "frame"}
}
