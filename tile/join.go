package tile

import (
	"fmt"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

const mapSide = 15.0

// join draws what joins a window to its neighbours. Its own left and lower
// borders are trimmed and laid over the neighbours' strips, on whose lines each
// diamond is completed.
func join(w Window, outline []r2.Vec) []draw.Item {
	g := w.Grid
	if g == nil {
		return nil
	}
	var items []draw.Item
	area := w.Clip
	ring := w.PageFromPanel.ApplyAll(outline)
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
			items = append(items, joint(area, ring, side.at, side.upright, side.over, number)...)
		}
	}
	return items
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

// joint is the line along a shared border with its diamonds.
func joint(area draw.Rect, outline []r2.Vec, at float64, upright, over bool, number int) []draw.Item {
	point := func(along, across float64) r2.Vec {
		if upright {
			return r2.Vec{X: at + across, Y: along}
		}
		return r2.Vec{X: along, Y: at + across}
	}
	from, to := area.Min.Y, area.Max.Y
	if !upright {
		from, to = area.Min.X, area.Max.X
	}
	line := &draw.Path{Subpaths: [][]r2.Vec{{point(from, 0), point(to, 0)}}, Stroke: draw.Style{Width: 0.15, Color: grey}, Layer: "frame"}
	marks := &draw.Path{Stroke: draw.Style{Width: 0.2}, Clip: &area, Layer: "frame"}
	items := []draw.Item{line, marks}
	for k, f := range markPlaces {
		s := from + f*(to-from)
		marks.Subpaths = append(marks.Subpaths,
			[]r2.Vec{point(s-4, 0), point(s, 4), point(s+4, 0), point(s, -4), point(s-4, 0)},
			[]r2.Vec{point(s, -4), point(s, 4)})
		across := -6.6
		if over {
			across = 6.6
		}
		items = append(items, note(point(s, across), 2.6, upright, fmt.Sprintf("%d%c", number, 'a'+k), true))
	}
	says, across := "glue strip – the next page lies over it", Strip/2.0
	if over {
		says, across = "trim here, lay over the strip", 2.2
	}
	return append(items, besideOutline(outline, func(f float64) *draw.Text {
		return note(point(from+f*(to-from), across), 2, upright, says, false)
	}))
}

// besideOutline is a text at the first place along a border where no cutting
// line runs through it, or at the first of all.
func besideOutline(outline []r2.Vec, at func(f float64) *draw.Text) *draw.Text {
	for _, f := range []float64{0.5, 0.38, 0.62, 0.08, 0.92} {
		t := at(f)
		if !crossed(t.Corners(), outline) {
			return t
		}
	}
	return at(0.5)
}

func crossed(b [4]r2.Vec, ring []r2.Vec) bool {
	for i, p := range ring {
		if touches(b, p, ring[(i+1)%len(ring)]) {
			return true
		}
	}
	return false
}

// markPlaces are where the diamonds stand along a border, as parts of it.
var markPlaces = []float64{0.2, 0.8}

func note(at r2.Vec, size float64, upright bool, s string, bold bool) *draw.Text {
	t := &draw.Text{At: at, Size: size, Align: draw.Centre, S: s, Bold: bold, Layer: "frame"}
	if upright {
		t.Angle = rightAngle
		t.At.X += size * draw.CapHeight / 2
	} else {
		t.At.Y -= size * draw.CapHeight / 2
	}
	return t
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
