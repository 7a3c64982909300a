package sheet

import (
	"fmt"
	"math"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"

	"gonum.org/v1/gonum/spatial/r2"
)

// windows are the pages that a view at true size is cut into.
type windows struct {
	v          *view
	area       draw.Rect
	cols, rows int
	step       r2.Vec // from one window to the next
	start      r2.Vec // how far the view's corner stands in the lower left one
	number     [][]int
}

// How windows are laid (judgement): in steps of tryStep; a join this far from
// eyes and from other marks is far enough.
const (
	tryStep  = 4.0
	offEyes  = 15.0
	offMarks = 25.0
)

// newWindows lays the windows so that as few of them as can be show something,
// and joins keep off the eyes and then off the other marks.
func newWindows(v *view, area draw.Rect) *windows {
	size, room := v.outer(1), r2.Sub(area.Max, area.Min)
	w := &windows{v: v, area: area, cols: count(size.X, room.X), rows: count(size.Y, room.Y)}
	w.step = r2.Sub(room, at(leaf.Strip, leaf.Strip))
	spare := r2.Sub(at(float64(w.cols-1)*w.step.X+room.X, float64(w.rows-1)*w.step.Y+room.Y), size)
	best := math.Inf(1)
	var start r2.Vec
	for _, dx := range tries(spare.X / 2) {
		for _, dy := range tries(spare.Y / 2) {
			w.start = r2.Add(r2.Scale(0.5, spare), at(dx, dy))
			if worse := w.worse(); worse < best-1e-9 {
				best, start = worse, w.start
			}
		}
	}
	w.start = start
	return w
}

// tries are shifts up to a most, the smallest first.
func tries(most float64) []float64 {
	out := []float64{0}
	for d := tryStep; d <= most; d += tryStep {
		out = append(out, -d, d)
	}
	return out
}

func count(need, room float64) int {
	if need <= room {
		return 1
	}
	return int(math.Ceil((need - leaf.Strip) / (room - leaf.Strip)))
}

// worse weighs windows: a page more is worse than a join nearer to an eye, that
// worse than one nearer to another mark.
func (w *windows) worse() float64 {
	pages := 0.0
	for row := range w.rows {
		for col := range w.cols {
			if w.shows(row, col) {
				pages++
			}
		}
	}
	across, up := w.clearOf(w.v.eyes)
	acrossToo, upToo := w.clearOf(w.v.marks)
	return 1e4*pages - 1e2*(min(across, offEyes)+min(up, offEyes)) - min(acrossToo, offMarks) - min(upToo, offMarks)
}

// part is what of the view's plane a window shows; rows count from below.
func (w *windows) part(row, col int) draw.Rect {
	room := r2.Sub(w.area.Max, w.area.Min)
	low := r2.Add(w.v.low, at(float64(col)*w.step.X-w.start.X-rulerRoom, float64(row)*w.step.Y-w.start.Y-rulerRoom))
	return draw.Rect{Min: low, Max: r2.Add(low, room)}
}

// shows tells whether a window has something of the subject or of the ruler.
func (w *windows) shows(row, col int) bool {
	if len(w.v.limbs) == 0 {
		return true
	}
	part := w.part(row, col)
	part.Min, part.Max = r2.Add(part.Min, at(leaf.Strip/2, leaf.Strip/2)), r2.Sub(part.Max, at(leaf.Strip/2, leaf.Strip/2))
	for _, l := range w.v.limbs {
		wide := draw.Rect{Min: r2.Sub(part.Min, at(l.half, l.half)), Max: r2.Add(part.Max, at(l.half, l.half))}
		if crosses(wide, [2]r2.Vec{l.from, l.to}) {
			return true
		}
	}
	return false
}

// clearOf is how far the strips of upright joins, and those of level ones, keep
// off some places at least.
func (w *windows) clearOf(places []r2.Vec) (across, up float64) {
	across, up = math.Inf(1), math.Inf(1)
	off := func(strip, place float64) float64 { return math.Abs(strip+leaf.Strip/2-place) - leaf.Strip/2 }
	for _, p := range places {
		for col := 1; col < w.cols; col++ {
			across = min(across, off(w.part(0, col).Min.X, p.X))
		}
		for row := 1; row < w.rows; row++ {
			up = min(up, off(w.part(row, 0).Min.Y, p.Y))
		}
	}
	return across, up
}

// pages are those that show something, from the top row down, numbered from
// first.
func (w *windows) pages(s *Sheet, p Paper, first int) []draw.Page {
	w.number = make([][]int, w.rows)
	n := 0
	for row := w.rows - 1; row >= 0; row-- {
		w.number[row] = make([]int, w.cols)
		for col := range w.cols {
			if w.shows(row, col) {
				w.number[row][col] = first + n
				n++
			}
		}
	}
	var pages []draw.Page
	for row := w.rows - 1; row >= 0; row-- {
		for col := range w.cols {
			if w.number[row][col] > 0 {
				pages = append(pages, w.page(s, p, row, col))
			}
		}
	}
	return pages
}

func (w *windows) page(s *Sheet, p Paper, row, col int) draw.Page {
	page := p.blank(fmt.Sprintf("%s: row %d of %d from the top, column %d of %d", w.v.shows, w.rows-row, w.rows, col+1, w.cols))
	corner := r2.Sub(r2.Add(w.area.Min, w.start), at(float64(col)*w.step.X, float64(row)*w.step.Y))
	items := clipped(s.draw(w.v, 1, corner), w.area)
	page.Items = items
	for _, b := range w.borders(row, col) {
		page.Items = append(page.Items, lightened(leaf.Join(w.area, texts(items), b))...)
	}
	return page
}

// there tells whether a window is among the pages.
func (w *windows) there(row, col int) bool {
	return row >= 0 && row < w.rows && col >= 0 && col < w.cols && w.number[row][col] > 0
}

// borders are those that a window shares with another; both sides count them
// alike, from 1: the upright ones row by row, then the level ones.
func (w *windows) borders(row, col int) []leaf.Border {
	upright := func(r, c int) int { return r*(w.cols-1) + c + 1 } // right of r, c
	level := func(r, c int) int { return w.rows*(w.cols-1) + r*w.cols + c + 1 }
	area := w.area
	var out []leaf.Border
	if w.there(row, col-1) {
		out = append(out, leaf.Border{At: area.Min.X, Upright: true, Over: true, Number: upright(row, col-1)})
	}
	if w.there(row, col+1) {
		out = append(out, leaf.Border{At: area.Max.X - leaf.Strip, Upright: true, Number: upright(row, col)})
	}
	if w.there(row-1, col) {
		out = append(out, leaf.Border{At: area.Min.Y, Over: true, Number: level(row-1, col)})
	}
	if w.there(row+1, col) {
		out = append(out, leaf.Border{At: area.Max.Y - leaf.Strip, Number: level(row, col)})
	}
	return out
}

// mapped are small maps of the views' pages, side by side under a place, as far
// as there is room, with a word on what was left out.
func mapped(all []*windows, top r2.Vec, area draw.Rect) []draw.Item {
	cols, rows, left := 0.0, 0, 0
	for _, w := range all {
		cols, rows = cols+float64(w.cols)+1, max(rows, w.rows)
		for _, row := range w.number {
			for _, n := range row {
				if n == 0 {
					left++
				}
			}
		}
	}
	const head = 12.0
	cell := at(min(12, (area.Max.X-top.X)/cols), min(9, (top.Y-head-area.Min.Y)/float64(rows)))
	if cell.X < 4 || cell.Y < 4 {
		return nil
	}
	says := "Where the pages stand:"
	if left > 0 {
		says = fmt.Sprintf("Where the pages stand; %d that would show nothing but background are left out (–):", left)
	}
	items := []draw.Item{text(r2.Sub(top, at(0, 3.2)), 3.2, draw.Start, black, says)}
	x := top.X
	for _, w := range all {
		items = append(items, text(at(x, top.Y-head+2), 2.8, draw.Start, black, w.v.shows.String()))
		for row := range w.rows {
			for col := range w.cols {
				low := at(x+float64(col)*cell.X, top.Y-head-float64(w.rows-row)*cell.Y)
				items = append(items, line(0.2, black, low, r2.Add(low, at(cell.X, 0)), r2.Add(low, cell), r2.Add(low, at(0, cell.Y)), low))
				n := "–"
				if w.number[row][col] > 0 {
					n = fmt.Sprint(w.number[row][col])
				}
				items = append(items, text(r2.Add(low, at(cell.X/2, cell.Y/2-1)), 2.8, draw.Centre, black, n))
			}
		}
		x += (float64(w.cols) + 1) * cell.X
	}
	return items
}
