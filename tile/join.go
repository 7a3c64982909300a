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
			items = append(items, joint(area, drawn, side.at, side.upright, side.over, number)...)
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

// joint is the line along a shared border with its diamonds. Its texts keep
// clear of what is drawn already, if they can.
func joint(area draw.Rect, drawn []draw.Item, at float64, upright, over bool, number int) []draw.Item {
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
	inward, says, depth := -1.0, "glue strip – the next page lies over it", []float64{Strip / 2, 2.2, Strip - 2.2}
	if over {
		inward, says, depth = 1, "trim here, lay over the strip", []float64{2.2, 4.5}
	}
	line := &draw.Path{Subpaths: [][]r2.Vec{{point(from, 0), point(to, 0)}}, Stroke: draw.Style{Width: 0.15, Color: grey}, Layer: "frame"}
	marks := &draw.Path{Stroke: draw.Style{Width: 0.2}, Clip: &area, Layer: "frame"}
	items := []draw.Item{line, marks}
	for k, f := range markPlaces {
		s := from + f*(to-from)
		marks.Subpaths = append(marks.Subpaths,
			[]r2.Vec{point(s-4, 0), point(s, 4), point(s+4, 0), point(s, -4), point(s-4, 0)},
			[]r2.Vec{point(s, -4), point(s, 4)})
		var tries []*draw.Text
		for _, off := range []float64{0, -4, 4, -8, 8} {
			tries = append(tries, note(point(s+off, 6.6*inward), 2.6, upright, fmt.Sprintf("%d%c", number, 'a'+k), true))
		}
		items = append(items, firstClear(tries, drawn))
	}
	var tries []*draw.Text
	for _, d := range depth {
		for _, f := range []float64{0.5, 0.38, 0.62, 0.08, 0.92} {
			half := draw.TextWidth(says, 2, false)/2 + 1
			along := min(max(from+f*(to-from), from+half), to-half)
			tries = append(tries, note(point(along, d), 2, upright, says, false))
		}
	}
	return append(items, firstClear(tries, append(drawn[:len(drawn):len(drawn)], items...)))
}

// firstClear is the first text that nothing drawn runs through, or the first of
// all.
func firstClear(tries []*draw.Text, drawn []draw.Item) *draw.Text {
	for _, t := range tries {
		if !struck(t.Corners(), drawn) {
			return t
		}
	}
	return tries[0]
}

func struck(b [4]r2.Vec, drawn []draw.Item) bool {
	for _, it := range drawn {
		switch it := it.(type) {
		case *draw.Text:
			if c := it.Corners(); crossedBy(b, c[:], true) {
				return true
			}
		case *draw.Path:
			for _, sub := range it.Subpaths {
				if crossedBy(b, sub, it.Closed) {
					return true
				}
			}
		}
	}
	return false
}

func crossedBy(b [4]r2.Vec, line []r2.Vec, closed bool) bool {
	for i := 0; i+1 < len(line); i++ {
		if touches(b, line[i], line[i+1]) {
			return true
		}
	}
	n := len(line)
	return closed && n > 2 && touches(b, line[n-1], line[0])
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
