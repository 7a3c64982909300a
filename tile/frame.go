package tile

import (
	"fmt"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// frame is what stands round the panels of every page: two bars that make two
// sides of a 100 mm square, and what the page says of itself; n is 0 on a page
// that stands alone.
func (p *Plan) frame(page *draw.Page, n, of int, says string) {
	corner := r2.Vec{X: Margin + 5, Y: Margin + 5}
	page.Items = append(page.Items, bar(corner, false)...)
	page.Items = append(page.Items, bar(corner, true)...)
	page.Items = append(page.Items, square(corner, 4)...)
	left := Margin + leftBand + 1.0
	right := p.Paper.Width - Margin
	number := ""
	if n > 0 {
		number = fmt.Sprintf("page %d of %d", n, of)
	}
	p.fitted(page, left, right-mapSide-2, Margin+14.2, 3, true, strings.Join(nonEmpty(p.name(), number, p.Paper.Name), " · "))
	p.fitted(page, left, right-mapSide-2, Margin+10.6, 2.5, false, strings.Join(nonEmpty("Print at 100 % / actual size: bars must measure 100 mm and 4 in", p.correctionText(), says), " · "))
}

func (p *Plan) name() string {
	if p.Title == "" {
		return "Templates"
	}
	return p.Title
}

func nonEmpty(ss ...string) []string {
	var out []string
	for _, s := range ss {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// fitted sets a line of text between two x, smaller if it must be.
func (p *Plan) fitted(page *draw.Page, from, to, y, size float64, bold bool, s string) {
	if w := draw.TextWidth(s, size, bold); w > to-from {
		size *= (to - from) / w
	}
	page.Items = append(page.Items, &draw.Text{At: r2.Vec{X: from, Y: y}, Size: size, Bold: bold, S: s, Layer: "frame"})
}

func (p *Plan) correctionText() string {
	c := p.Paper.Correct
	if c == (Correction{}) {
		return ""
	}
	return fmt.Sprintf("corrected for this printer: x %+.2f %%, y %+.2f %%", c.X*100, c.Y*100)
}

// bar is a ruler of 100 mm and 4 in that starts at a corner: millimetres on the
// inner side, inches on the outer one.
func bar(corner r2.Vec, upright bool) []draw.Item {
	place := geom.Turned(0, corner)
	inner := 1.0 // an upright bar is the level one turned, and then its inner side is the other one
	if upright {
		place, inner = geom.Turned(rightAngle, corner), -1
	}
	ticks := &draw.Path{Stroke: draw.Style{Width: 0.2}, Layer: "frame"}
	line := func(from, to r2.Vec) {
		ticks.Subpaths = append(ticks.Subpaths, place.ApplyAll([]r2.Vec{from, to}))
	}
	line(r2.Vec{}, r2.Vec{X: 4 * inch})
	for mm := 0; mm <= 100; mm += 5 {
		line(r2.Vec{X: float64(mm)}, r2.Vec{X: float64(mm), Y: inner * tickOf(mm, 50, 10)})
	}
	for q := range 17 {
		line(r2.Vec{X: float64(q) * inch / 4}, r2.Vec{X: float64(q) * inch / 4, Y: -inner * tickOf(q, 4, 2)})
	}
	items := []draw.Item{ticks}
	label := func(s string, along, across float64) {
		base := across*inner - 1.7*draw.CapHeight/2
		items = append(items, &draw.Text{At: place.Apply(r2.Vec{X: along - 0.7, Y: base}), Size: 1.7, Angle: place.Angle(), Align: draw.End, S: s, Layer: "frame"})
	}
	label("50 mm", 50, 2.6)
	label("100 mm", 100, 2.6)
	for i := 1; i <= 4; i++ {
		label(fmt.Sprintf("%d in", i), float64(i)*inch, -2)
	}
	return items
}

// tickOf is the length of a tick: long, middle or short.
func tickOf(n, long, middle int) float64 {
	switch {
	case n%long == 0:
		return 2.4
	case n%middle == 0:
		return 1.6
	}
	return 0.9
}

// square is a small filled test square at a corner.
func square(corner r2.Vec, side float64) []draw.Item {
	ring := []r2.Vec{{}, {X: side}, {X: side, Y: side}, {Y: side}}
	for i := range ring {
		ring[i] = r2.Add(corner, ring[i])
	}
	return []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.2}, Layer: "frame"}}
}
