package tile

import (
	"math"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

const mapSide = 15.0

// join draws what joins a window to its neighbours. Its own left and lower
// borders are trimmed and laid over the neighbours' strips, on whose lines each
// diamond is completed.
func join(w Window, drawn []draw.Item) []draw.Item {
	g := w.Grid
	if g == nil {
		return nil
	}
	var items []draw.Item
	area := w.Clip
	for _, side := range []struct {
		row, col int // the neighbour
		upright  bool
		at       float64
		over     bool // this window is laid over the neighbour
	}{
		{w.Row, w.Col - 1, true, area.Min.X, true},
		{w.Row, w.Col + 1, true, area.Max.X - Strip, false},
		{w.Row - 1, w.Col, false, area.Min.Y, true},
		{w.Row + 1, w.Col, false, area.Max.Y - Strip, false},
	} {
		if g.has(side.row, side.col) {
			number := g.edgeNumber(min(w.Row, side.row), min(w.Col, side.col), side.upright)
			crossed := g.crossed(w, side.upright, side.at)
			items = append(items, leaf.Join(area, drawn, leaf.Border{At: side.at, Upright: side.upright, Over: side.over, Number: number, Crossed: crossed})...)
		}
	}
	return items
}

// crossed are the places along a border of a window, which is at some x or y of
// its page, where the panel's outline crosses it: the same on both pages. A line
// crosses a diamond also where it passes the border by half of one.
func (g *Grid) crossed(w Window, upright bool, at float64) (out []float64) {
	shift := r2.Sub(g.window(w.Row, w.Col).Min, w.Clip.Min) // gridFromPage
	from, to := r2.Vec{X: w.Clip.Min.X, Y: at}, r2.Vec{X: w.Clip.Max.X, Y: at}
	across := r2.Vec{Y: 4}
	if upright {
		from, to, across = r2.Vec{X: at, Y: w.Clip.Min.Y}, r2.Vec{X: at, Y: w.Clip.Max.Y}, r2.Vec{X: 4}
	}
	for _, off := range []float64{-1, 0, 1} {
		a, b := r2.Add(r2.Add(from, shift), r2.Scale(off, across)), r2.Add(r2.Add(to, shift), r2.Scale(off, across))
		for _, ring := range append([][]r2.Vec{g.Outline}, g.Holes...) {
			for _, part := range geom.ClipLine(a, b, ring) {
				out = append(out, math.Round(100*geom.Dist(a, part[0]))/100, math.Round(100*geom.Dist(a, part[1]))/100) // one number on both pages
			}
		}
	}
	return out
}

// edgeNumber counts the shared borders of a grid, from 1: those to the right,
// row by row, then those above.
func (g *Grid) edgeNumber(row, col int, upright bool) int {
	n := 0
	for _, up := range []bool{true, false} {
		for r := range g.Rows {
			for c := range g.Cols {
				right, above := up && g.has(r, c+1), !up && g.has(r+1, c)
				if !g.has(r, c) || !(right || above) {
					continue
				}
				n++
				if r == row && c == col && up == upright {
					return n
				}
			}
		}
	}
	return n
}

// smallMap shows a panel's pages and which of them this is.
func smallMap(w Window, corner r2.Vec) []draw.Item {
	g := w.Grid
	if g == nil {
		return nil
	}
	whole := r2.Vec{X: float64(g.Cols-1)*g.Step.X + g.Size.X, Y: float64(g.Rows-1)*g.Step.Y + g.Size.Y}
	scale := mapSide / max(whole.X, whole.Y)
	to := func(p r2.Vec) r2.Vec { return r2.Add(corner, r2.Scale(scale, r2.Sub(p, g.Origin))) }
	light := draw.Color{R: 190, G: 190, B: 190}
	var items []draw.Item
	for row := range g.Rows {
		for col := range g.Cols {
			if !g.Used[row][col] {
				continue
			}
			cell := g.own(row, col)
			a, b := to(cell.Min), to(cell.Max)
			path := &draw.Path{Subpaths: [][]r2.Vec{{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}}, Closed: true, Stroke: draw.Style{Width: 0.12}, Layer: "frame"}
			if row == w.Row && col == w.Col {
				path.Fill = &light
			}
			items = append(items, path)
		}
	}
	ring := make([]r2.Vec, len(g.Outline))
	for i, p := range g.Outline {
		ring[i] = to(p)
	}
	return append(items, &draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.2}, Layer: "frame"})
}
