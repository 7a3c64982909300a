package tile

import (
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func bevelSample(m geom.Rigid) []draw.Item {
	return bevelIcon(pattern.Bevel{Min: 0.5, Max: 0.5, Undercut: true})(m.Shift, 8, m.Angle())
}

// ScrapTest is a page for two tests on scraps of the maker's own foam: where the
// neutral line lies when it bends (k), and how much it shrinks under heat.
func ScrapTest(paper Paper) draw.Page {
	p := &Plan{Paper: paper, Title: "Scrap test"}
	page := p.blank("Scrap test: bend and heat")
	area := paper.Area()
	c := &leaf.Column{Page: &page, X: area.Min.X + 4, Y: page.Height - Margin - 4, Width: paper.Width - area.Min.X - Margin - 8}
	c.Say(5, true, "Two tests on scraps of your own foam")
	c.Say(3.4, true, "1. Bend test: where the neutral line lies (k)")
	c.Say(2.5, false, "Cut a strip 20 mm wide and longer than the round thing you bend it on: a tin, a jar, a pipe. Measure round the thing with a strip of thin paper: its girth divided by 6.283 is the radius R. Measure the foam's thickness T. Wrap the strip once round, without stretching it, mark where it meets itself, cut square there and try until the ends just close. Lay it flat and measure its length L with a steel ruler. A is the angle that it went round, in radians: 6.283 for once round.")
	c.Say(3, true, "k = (L ÷ A − R) ÷ T")
	c.Say(2.5, false, "Example: R 50 mm, T 10 mm, once round, L 345.6 mm: 345.6 ÷ 6.283 = 55.0; (55.0 − 50) ÷ 10 = 0.50. A k from 0.35 to 0.75 is likely; outside that, measure again. Do it on two radii and take the mean.")
	blanks(c, "R ______ mm · T ______ mm · A ______ · L ______ mm · k ______")
	c.Say(3.4, true, "2. Heat test: how much the foam shrinks")
	c.Say(2.5, false, "Cut the square below out of foam, exactly on the line, and mark the direction of the sheet's length on it. Measure both sides. Heat it on both faces as you heat your pieces, let it cool flat for ten minutes, and measure both sides again, in the middle. Good air and gloves; foam that smokes is too hot.")
	c.Say(3, true, "shrink = (before − after) ÷ before")
	c.Say(2.5, false, "Example: 100 mm before, 98 mm after: 2 ÷ 100 = 0.02, which is 2 %.")
	blanks(c, "before ______ × ______ mm · after ______ × ______ mm · shrink ______ % × ______ %")
	side := 100.0
	if c.Y-area.Min.Y < side+6 {
		side = 50
	}
	at := r2.Vec{X: c.X + 2, Y: area.Min.Y + 3}
	ring := []r2.Vec{at, r2.Add(at, r2.Vec{X: side}), r2.Add(at, r2.Vec{X: side, Y: side}), r2.Add(at, r2.Vec{Y: side})}
	label := "100 mm square of foam"
	if side < 100 {
		label = "50 mm square of foam"
	}
	page.Items = append(page.Items,
		&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: freeEdge, Layer: "cut"},
		&draw.Text{At: r2.Add(at, r2.Vec{X: side / 2, Y: side / 2}), Size: 3, Align: draw.Centre, S: label, Layer: "text"})
	p.frame(&page, 0, 0, "")
	return p.corrected(page)
}

func blanks(c *leaf.Column, s string) {
	c.Y -= 2
	c.Say(leaf.FitSize(s, 3, c.Width), false, s)
}
