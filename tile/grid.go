package tile

import (
	"math"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/internal/units"

	"github.com/tdewolff/canvas"
	"gonum.org/v1/gonum/spatial/r2"
)

// Strip is how far neighbouring windows of a grid overlap, mm: the strip to glue.
const Strip = leaf.Strip

// Grid is how a large panel is divided over pages. Neighbours share a strip at
// the right and the top of the lower left one; the other one is trimmed at its
// own border and laid over it.
type Grid struct {
	Rows, Cols int
	Used       [][]bool   // [row][col]: some of the panel is there
	Turn       float64    // gridFromPanel
	Origin     r2.Vec     // lower left corner of window (0, 0), turned panel axes
	Step       r2.Vec     // from window to window
	Size       r2.Vec     // of a window
	Outline    []r2.Vec   // the panel, turned
	Holes      [][]r2.Vec // turned
	pages      int
}

func (g *Grid) window(row, col int) draw.Rect {
	at := r2.Add(g.Origin, r2.Vec{X: float64(col) * g.Step.X, Y: float64(row) * g.Step.Y})
	return draw.Rect{Min: at, Max: r2.Add(at, g.Size)}
}

// has tells whether there is a page at row, col.
func (g *Grid) has(row, col int) bool {
	return row >= 0 && col >= 0 && row < g.Rows && col < g.Cols && g.Used[row][col]
}

// split gives a panel a grid of its own, in the turn with the fewest pages.
func (p *Plan) split(w Window) *Grid {
	area := p.Paper.Area()
	var best *Grid
	for _, a := range turns()[:4:4] {
		best = fewer(best, divide(p.panel(w).Extent(), a, area))
	}
	for d := 15; d < 180; d += 15 {
		if d != 90 {
			best = fewer(best, divide(p.panel(w).Extent(), units.Rad(float64(d)), area))
		}
	}
	turn := geom.Turned(best.Turn, r2.Vec{})
	for _, h := range p.panel(w).Holes {
		best.Holes = append(best.Holes, turn.ApplyAll(h))
	}
	for row := best.Rows - 1; row >= 0; row-- {
		for col := range best.Cols {
			if !best.Used[row][col] {
				continue
			}
			part := w
			part.Row, part.Col, part.Clip = row, col, area
			part.PageFromPanel = geom.Turned(best.Turn, r2.Sub(area.Min, best.window(row, col).Min))
			if best.pages > 1 {
				part.Grid = best
			}
			p.put(len(p.Sheets), part)
		}
	}
	return best
}

func fewer(a, b *Grid) *Grid {
	if a == nil || b.pages < a.pages {
		return b
	}
	return a
}

// divide lays a grid of windows over an outline turned by an angle.
func divide(outline []r2.Vec, turn float64, area draw.Rect) *Grid {
	room := r2.Sub(area.Max, area.Min)
	ring := geom.Turned(turn, r2.Vec{}).ApplyAll(outline)
	box := geom.Bounds(ring)
	g := &Grid{Turn: turn, Outline: ring, Size: room, Step: r2.Sub(room, r2.Vec{X: Strip, Y: Strip})}
	need := size(box)
	g.Cols, g.Rows = windows(need.X, room.X), windows(need.Y, room.Y)
	spare := r2.Sub(r2.Vec{X: float64(g.Cols-1)*g.Step.X + room.X, Y: float64(g.Rows-1)*g.Step.Y + room.Y}, need)
	g.Origin = r2.Sub(box.Min, r2.Scale(0.5, spare))
	g.Used = make([][]bool, g.Rows)
	for row := range g.Rows {
		g.Used[row] = make([]bool, g.Cols)
		for col := range g.Cols {
			if reachesInto(ring, g.own(row, col)) {
				g.Used[row][col] = true
				g.pages++
			}
		}
	}
	return g
}

// reachesInto tells whether some of a ring lies in a rectangle, as clip finds it.
// Most rings have a corner well inside, or lie all round or outside.
func reachesInto(ring []r2.Vec, r draw.Rect) bool {
	const well = 1.0 // mm: a corner so far inside brings more foam with it than the least that counts
	near := false
	for i, p := range ring {
		if p.X > r.Min.X+well && p.X < r.Max.X-well && p.Y > r.Min.Y+well && p.Y < r.Max.Y-well {
			return true
		}
		q := ring[(i+1)%len(ring)]
		near = near || max(p.X, q.X) > r.Min.X-well && min(p.X, q.X) < r.Max.X+well && max(p.Y, q.Y) > r.Min.Y-well && min(p.Y, q.Y) < r.Max.Y+well
	}
	if !near {
		return geom.Inside(ring, geom.Lerp(r.Min, r.Max, 0.5))
	}
	return len(clip(ring, r)) > 0
}

// own is a window without the strips that it shares at its right and top: what
// only this page shows once the pages are joined.
func (g *Grid) own(row, col int) draw.Rect {
	w := g.window(row, col)
	if col < g.Cols-1 {
		w.Max.X -= Strip
	}
	if row < g.Rows-1 {
		w.Max.Y -= Strip
	}
	return w
}

func windows(need, room float64) int {
	if need <= room+geom.Coincident {
		return 1
	}
	return int(math.Ceil((need - Strip - geom.Coincident) / (room - Strip)))
}

// clip is the parts of a ring inside a rectangle.
func clip(ring []r2.Vec, r draw.Rect) [][]r2.Vec {
	shape := &canvas.Path{}
	for i, p := range ring {
		if i == 0 {
			shape.MoveTo(p.X, p.Y)
		} else {
			shape.LineTo(p.X, p.Y)
		}
	}
	shape.Close()
	s := r2.Sub(r.Max, r.Min)
	both := shape.And(canvas.Rectangle(s.X, s.Y).Translate(r.Min.X, r.Min.Y))
	var out [][]r2.Vec
	for _, sub := range both.Split() {
		var pts []r2.Vec
		for _, c := range sub.Coords() {
			pts = append(pts, r2.Vec{X: c.X, Y: c.Y})
		}
		if n := len(pts); n > 1 && geom.Dist(pts[0], pts[n-1]) < geom.Coincident {
			pts = pts[:n-1]
		}
		if len(pts) > 2 && math.Abs(geom.Area(pts)) > 1e-3 {
			out = append(out, geom.CCW(pts))
		}
	}
	return out
}
