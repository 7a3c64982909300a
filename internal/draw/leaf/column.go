package leaf

import (
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// Column is text that runs down a page.
type Column struct {
	Page        *draw.Page
	X, Y, Width float64
}

// Say adds a paragraph, wrapped to the column.
func (c *Column) Say(size float64, bold bool, s string) {
	for _, l := range Fill(s, size, bold, c.Width) {
		c.Y -= size * 1.3
		c.Page.Items = append(c.Page.Items, &draw.Text{At: r2.Vec{X: c.X, Y: c.Y}, Size: size, Bold: bold, S: l, Layer: "frame"})
	}
	c.Y -= size * 0.7
}

// Fill breaks a paragraph into lines no longer than a width.
func Fill(s string, size float64, bold bool, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
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

// FitSize is the size, or a smaller one in which a line fits a width.
func FitSize(s string, size, width float64) float64 {
	return min(size, size*width/draw.TextWidth(s, size, false))
}
