package tile

import (
	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// check is page one: what to measure before anything is cut, and what the lines
// mean.
func (p *Plan) check(of int) draw.Page {
	page := p.blank("Page 1: print check")
	c := &column{page: &page, x: p.Paper.Area().Min.X + 4, y: page.Height - Margin - 6, width: p.Paper.Width - 2*Margin - leftBand - 8}
	c.say(5, true, "Print check: measure this page first")
	c.say(2.9, false, "Print this page alone, at 100 % or \"actual size\", never \"fit to page\". Measure the square below with a steel ruler, along its lower side (across) and its left side (down), from the middle of one line to the middle of the other. Both must read 100 mm; half a millimetre off is too much.")
	at := r2.Vec{X: c.x + 4, Y: c.y - 106}
	page.Items = append(page.Items, testSquare(at)...)
	right := &column{page: &page, x: at.X + 110, y: c.y - 6, width: p.Paper.Width - Margin - at.X - 112}
	off := right
	c.y = at.Y - 9
	if right.width < 50 {
		off = c
	}
	off.say(3.2, true, "If it is off")
	off.say(2.5, false, "Far off (95 mm, 103 mm): the dialog scales. Choose 100 % or \"actual size\" and the right paper, and print again.")
	off.say(2.5, false, "A little off (98.5 to 101.5 mm) though the dialog is right: the printer itself is off. Write both readings into costume.yaml, such as printer: {across: 99.6 mm, down: 100.2 mm}, and print again.")
	off.say(2.5, false, "Every page has the same two bars, so that a page printed later can be checked too.")
	c.say(3.2, true, "What the lines mean")
	c.legend()
	c.say(2.5, false, "A number with an arrow, \"3 ▸ V2\", stands beside each edge that is joined: it is seam 3, and the other side of it is on panel V2; \"3 ▸ V2 flipped\" meets the flipped copy, or on a flipped copy the one as drawn. A joined edge ends at a corner or at a short thick bar. Strokes across a seam line are notches: one stroke meets one stroke, two meet two; from the fourth on, a number stands beside the stroke. All is drawn as seen on the OUTSIDE of the piece; \"flipped\" copies are cut with the template turned over. Page turned any way: the arrow points up when worn, or to the front where it says so.")
	p.frame(&page, 1, of, "")
	return p.corrected(page)
}

// testSquare is a square of 100 mm, lower left corner given.
func testSquare(at r2.Vec) []draw.Item {
	ring := []r2.Vec{at, r2.Add(at, r2.Vec{X: 100}), r2.Add(at, r2.Vec{X: 100, Y: 100}), r2.Add(at, r2.Vec{Y: 100})}
	text := func(x, y, size float64, s string) draw.Item {
		return &draw.Text{At: r2.Add(at, r2.Vec{X: x, Y: y}), Size: size, Align: draw.Centre, S: s, Layer: "frame"}
	}
	return []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.2}, Layer: "frame"},
		text(50, 50, 5, "100 mm × 100 mm"),
		text(50, 3, 3, "across: measure this side"),
		&draw.Text{At: r2.Add(at, r2.Vec{X: 4.5, Y: 50}), Size: 3, Angle: rightAngle, Align: draw.Centre, S: "down: measure this side", Layer: "frame"},
	}
}

// column is text that runs down a page.
type column struct {
	page        *draw.Page
	x, y, width float64
}

// say adds a paragraph, wrapped to the column.
func (c *column) say(size float64, bold bool, s string) {
	for _, l := range fill(s, size, bold, c.width) {
		c.y -= size * 1.3
		c.page.Items = append(c.page.Items, &draw.Text{At: r2.Vec{X: c.x, Y: c.y}, Size: size, Bold: bold, S: l, Layer: "frame"})
	}
	c.y -= size * 0.7
}

// fill breaks a paragraph into lines no longer than a width.
func fill(s string, size float64, bold bool, width float64) []string {
	var lines []string
	line := ""
	for _, word := range wrap(s, 1) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if line != "" && draw.TextWidth(next, size, bold) > width {
			lines = append(lines, line)
			next = word
		}
		line = next
	}
	return append(lines, line)
}

func (c *column) legend() {
	for _, l := range []struct {
		style draw.Style
		s     string
	}{
		{gluedTo, "cut; this edge is joined to another (cut along the middle of the line)"},
		{freeEdge, "cut; a free edge, an opening or an allowance"},
		{seamLine, "seam line where it is not the cut line: lengths and notches are taken here; do not cut"},
		{foldLine, "fold: do not cut through; which side is grooved or scored stands beside it"},
		{markLine, "where something sits: a fastening, a pad; do not cut"},
	} {
		c.y -= 4
		c.page.Items = append(c.page.Items,
			&draw.Path{Subpaths: [][]r2.Vec{{{X: c.x, Y: c.y + 0.9}, {X: c.x + 22, Y: c.y + 0.9}}}, Stroke: l.style, Layer: "frame"},
			&draw.Text{At: r2.Vec{X: c.x + 25, Y: c.y}, Size: fitSize(l.s, 2.5, c.width-25), S: l.s, Layer: "frame"})
	}
	c.y -= 5.2
	c.page.Items = append(c.page.Items, bevelSample(geom.Turned(0, r2.Vec{X: c.x + 11, Y: c.y + 1}))...)
	s := "bevel: a section through the edge; the thick line is the OUTSIDE, the slope is the cut"
	c.page.Items = append(c.page.Items, &draw.Text{At: r2.Vec{X: c.x + 25, Y: c.y}, Size: fitSize(s, 2.5, c.width-25), S: s, Layer: "frame"})
	c.y -= 3
}

func fitSize(s string, size, width float64) float64 {
	return min(size, size*width/draw.TextWidth(s, size, false))
}
