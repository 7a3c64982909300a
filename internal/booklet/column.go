// Package booklet draws the pages that go with the templates: how a piece
// looks and goes together, and how to work and wear it safely.
package booklet

import (
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// margin is what home printers leave white, with some air.
const margin = 12

var grey = draw.Color{R: 95, G: 95, B: 95}

// leading is the distance of lines for a font of size 1.
const leading = 1.32

// column is text set from the top down, between two edges. The page's items
// grow as text is added.
type column struct {
	items       []draw.Item
	left, right float64
	y           float64 // the top of the next line
	size        float64
	color       draw.Color
	bold        bool
}

// wrap breaks a text into lines no wider than width; a longer word stands alone.
func wrap(s string, width, size float64, bold bool) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if longer := strings.TrimSpace(line + " " + word); line == "" || draw.TextWidth(longer, size, bold) <= width {
			line = longer
			continue
		}
		lines = append(lines, line)
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// line sets one line at an indent.
func (c *column) line(indent float64, s string) {
	c.items = append(c.items, &draw.Text{
		At:   r2.Vec{X: c.left + indent, Y: c.y - 0.8*c.size},
		Size: c.size, S: s, Bold: c.bold, Color: c.color, Layer: "text",
	})
	c.y -= leading * c.size
}

// paragraph sets a text at an indent, wrapped.
func (c *column) paragraph(indent float64, s string) {
	for _, l := range wrap(s, c.right-c.left-indent, c.size, c.bold) {
		c.line(indent, l)
	}
}

// numbered sets a text at an indent with its number before it.
func (c *column) numbered(indent float64, number, s string) {
	c.items = append(c.items, &draw.Text{
		At:   r2.Vec{X: c.left + indent - 0.6*c.size, Y: c.y - 0.8*c.size},
		Size: c.size, S: number, Bold: true, Align: draw.End, Layer: "text",
	})
	c.paragraph(indent, s)
}

// heading sets a bold text, and leaves the column as it was.
func (c *column) heading(size float64, s string) {
	was, bold := c.size, c.bold
	c.size, c.bold = size, true
	c.paragraph(0, s)
	c.size, c.bold = was, bold
}

// rule draws a line across.
func (c *column) rule() {
	c.items = append(c.items, &draw.Path{
		Subpaths: [][]r2.Vec{{{X: c.left, Y: c.y}, {X: c.right, Y: c.y}}},
		Stroke:   draw.Style{Width: 0.25, Color: grey}, Layer: "frame",
	})
}

func (c *column) space(mm float64) { c.y -= mm }
