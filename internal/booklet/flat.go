package booklet

import (
	"fmt"
	"math"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// How a flat piece is drawn: at most so high, mm, with room for its two
// dimensions below and on the right.
const (
	flatHigh = 110.0
	flatSide = 12.0
	flatText = 2.6
)

// flatDrawing is a flat piece as its show face is seen, made smaller to fit,
// with its two sizes.
func flatDrawing(c *column, p *pattern.Piece, u units.Unit) []draw.Item {
	outline := p.Panels[0].Outline
	box := geom.Bounds(outline)
	wide, high := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	scale := min((c.right-c.left-2*flatSide)/wide, flatHigh/high, 1)
	at := r2.Vec{X: (c.left + c.right - scale*wide) / 2, Y: c.y - scale*high}
	ring := make([]r2.Vec, len(outline))
	for i, q := range outline {
		ring[i] = r2.Add(at, r2.Scale(scale, r2.Sub(q, box.Min)))
	}
	right, low := at.X+scale*wide, at.Y-flatSide/2
	items := []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.5}, Layer: "cut"}}
	items = append(items, dimension(r2.Vec{X: at.X, Y: low}, r2.Vec{X: right, Y: low}, units.Format(wide, u))...)
	items = append(items, dimension(r2.Vec{X: right + flatSide/2, Y: at.Y}, r2.Vec{X: right + flatSide/2, Y: c.y}, units.Format(high, u))...)
	c.y = low - flatSide/2
	items = append(items, &draw.Text{At: r2.Vec{X: (c.left + c.right) / 2, Y: c.y - flatText}, Size: flatText, Align: draw.Centre, Color: grey,
		S: caption(scale), Layer: "text"})
	c.y -= leading*flatText + 5
	return items
}

func caption(scale float64) string {
	if scale == 1 {
		return "its show face, at its true size"
	}
	return fmt.Sprintf("its show face, at 1 : %.1f", 1/scale)
}

// dimension is a line between two places, level or upright, with a bar at
// either end and its length below it or on its right.
func dimension(a, b r2.Vec, s string) []draw.Item {
	const bar = 1.2
	d := r2.Unit(r2.Sub(b, a))
	n := r2.Scale(bar, r2.Vec{X: d.Y, Y: -d.X}) // away from what is measured
	lines := [][]r2.Vec{{a, b}, {r2.Sub(a, n), r2.Add(a, n)}, {r2.Sub(b, n), r2.Add(b, n)}}
	off := bar
	if d.Y == 0 {
		off += flatText * draw.CapHeight
	}
	text := r2.Add(r2.Scale(0.5, r2.Add(a, b)), r2.Scale(off/bar, n))
	angle := 0.0
	if d.Y != 0 {
		angle, text = math.Pi/2, r2.Add(text, r2.Vec{X: flatText * draw.CapHeight})
	}
	return []draw.Item{
		&draw.Path{Subpaths: lines, Stroke: draw.Style{Width: 0.2, Color: grey}, Layer: "frame"},
		&draw.Text{At: text, Size: flatText, Angle: angle, Align: draw.Centre, S: s, Layer: "text"},
	}
}
