package leaf

import (
	"fmt"
	"math"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	inch       = 25.4
	rightAngle = math.Pi / 2
)

// Bar is a ruler of 100 mm and 4 in that starts at a corner: millimetres on the
// inner side, inches on the outer one.
func Bar(corner r2.Vec, upright bool) []draw.Item {
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
		base := across*inner - 1.8*draw.CapHeight/2
		items = append(items, &draw.Text{At: place.Apply(r2.Vec{X: along - 0.7, Y: base}), Size: 1.8, Angle: place.Angle(), Align: draw.End, S: s, Layer: "frame"})
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

// Square is a small square at a corner.
func Square(corner r2.Vec, side float64) []draw.Item {
	ring := []r2.Vec{{}, {X: side}, {X: side, Y: side}, {Y: side}}
	for i := range ring {
		ring[i] = r2.Add(corner, ring[i])
	}
	return []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.2}, Layer: "frame"}}
}

// TestSquare is a square of 100 mm, lower left corner given.
func TestSquare(at r2.Vec) []draw.Item {
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
