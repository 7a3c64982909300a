package tile

import (
	"fmt"
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// frame is what stands round the panels of every page: two bars that make two
// sides of a 100 mm square, and what the page says of itself.
func (p *Plan) frame(page *draw.Page, n, of int, says string) {
	corner := r2.Vec{X: Margin + 5, Y: Margin + 5}
	page.Items = append(page.Items, bar(corner, false)...)
	page.Items = append(page.Items, bar(corner, true)...)
	page.Items = append(page.Items, square(corner, 4)...)
	left := Margin + leftBand + 1.0
	right := p.Paper.Width - Margin
	p.fitted(page, left, right-mapSide-2, Margin+14.2, 3, true, fmt.Sprintf("%s · page %d of %d · %s", p.name(), n, of, p.Paper.Name))
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
	at := func(along, across float64) r2.Vec {
		if upright {
			return r2.Add(corner, r2.Vec{X: across, Y: along})
		}
		return r2.Add(corner, r2.Vec{X: along, Y: across})
	}
	axis := &draw.Path{Subpaths: [][]r2.Vec{{at(0, 0), at(4*inch, 0)}}, Stroke: draw.Style{Width: 0.2}, Layer: "frame"}
	ticks := &draw.Path{Stroke: draw.Style{Width: 0.2}, Layer: "frame"}
	tick := func(along, to float64) {
		ticks.Subpaths = append(ticks.Subpaths, [][]r2.Vec{{at(along, 0), at(along, to)}}...)
	}
	items := []draw.Item{axis, ticks}
	label := func(s string, along, across float64) {
		t := &draw.Text{At: at(along, across), Size: 1.7, Align: draw.Centre, S: s, Layer: "frame"}
		if upright {
			t.At, t.Align = r2.Add(at(along-0.6, 0), r2.Vec{X: across}), draw.Start
			if across < 0 {
				t.Align = draw.End
				t.At.X = corner.X - 2.2
			}
		}
		items = append(items, t)
	}
	for mm := 0; mm <= 100; mm += 5 {
		length := 1.0
		if mm%10 == 0 {
			length = 1.6
		}
		if mm%50 == 0 {
			length = 2.4
		}
		tick(float64(mm), length)
	}
	for _, mm := range []int{50, 100} {
		label(fmt.Sprintf("%d mm", mm), float64(mm)-4.5*boolTo(!upright), map[bool]float64{true: 2.7, false: 1.9}[upright])
	}
	for q := 0; q <= 16; q++ {
		length := -0.8
		if q%4 == 0 {
			length = -2
		}
		tick(float64(q)*inch/4, length)
	}
	for i := 1; i <= 4; i++ {
		label(fmt.Sprintf("%d in", i), float64(i)*inch-3*boolTo(!upright), -3)
	}
	return items
}

func boolTo(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// square is a small filled test square at a corner.
func square(corner r2.Vec, side float64) []draw.Item {
	ring := []r2.Vec{{}, {X: side}, {X: side, Y: side}, {Y: side}}
	for i := range ring {
		ring[i] = r2.Add(corner, ring[i])
	}
	return []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.2}, Layer: "frame"}}
}
