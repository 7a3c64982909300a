package tile

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// How lines look. They differ in width and dashes, not in colour alone, so that
// any printer and any eye can tell them apart.
var (
	freeEdge  = draw.Style{Width: 0.25}
	gluedTo   = draw.Style{Width: 0.6}
	endOfEdge = draw.Style{Width: 0.8}
	seamLine  = draw.Style{Width: 0.2, Dash: []float64{5, 1, 1, 1}}
	foldLine  = draw.Style{Width: 0.3, Dash: []float64{4, 2}}
	markLine  = draw.Style{Width: 0.2, Dash: []float64{1, 1}}
	strapWay  = draw.Style{Width: 0.5}
	fineLine  = draw.Style{Width: 0.2}
	grey      = draw.Color{R: 110, G: 110, B: 110}
)

// hatching shows where foam must stretch and where it must gather: whole lines
// one way, broken ones the other.
var hatching = map[string]draw.Style{
	pattern.MarkStretch: {Width: 0.12, Color: grey},
	pattern.MarkGather:  {Width: 0.12, Color: grey, Dash: []float64{1.5, 1}},
}

// drawing is one window of a panel as it grows.
type drawing struct {
	piece *pattern.Piece
	panel *pattern.Panel
	w     Window
	items []draw.Item
	rooms []*room

	missing []lost     // texts that found no room
	patches [][]r2.Vec // of straps, page axes; nil until they are asked for
}

// drawPanel draws all of a panel that a window shows, and gives the texts that
// found no room.
func (p *Plan) drawPanel(w Window) (items []draw.Item, missing []lost) {
	d := &drawing{piece: p.piece(w), panel: dashesApart(p.panel(w)), w: w}
	d.fragments()
	d.lines()
	for _, r := range d.rooms {
		d.label(r)
	}
	d.hatch()
	d.covered()
	return d.items, d.missing
}

func (d *drawing) fragments() {
	ring := d.w.PageFromPanel.ApplyAll(d.panel.Outline)
	var holes [][]r2.Vec
	for _, h := range d.panel.Holes {
		holes = append(holes, d.w.PageFromPanel.ApplyAll(h))
	}
	parts := [][]r2.Vec{ring}
	if d.w.Grid != nil {
		parts = clip(ring, d.w.labelArea())
	}
	for _, part := range parts {
		d.rooms = append(d.rooms, newRoom(part, holes))
	}
}

// labelArea is the part of a window in which labels stand: not on the strips
// that a neighbour is glued over.
func (w Window) labelArea() draw.Rect {
	area := w.Clip
	if w.Grid.has(w.Row, w.Col+1) {
		area.Max.X -= Strip
	}
	if w.Grid.has(w.Row+1, w.Col) {
		area.Max.Y -= Strip
	}
	return area
}

// shows tells whether a place on the page is where the window has labels.
func (w Window) shows(p r2.Vec) bool {
	if w.Grid == nil {
		return true
	}
	a := w.labelArea()
	return p.X > a.Min.X && p.Y > a.Min.Y && p.X < a.Max.X && p.Y < a.Max.Y
}

// line draws a line given in panel axes, cut off at the window.
func (d *drawing) line(pts []r2.Vec, closed bool, s draw.Style, layer string) {
	if len(pts) < 2 {
		return
	}
	path := &draw.Path{Subpaths: [][]r2.Vec{d.w.PageFromPanel.ApplyAll(pts)}, Closed: closed, Stroke: s, Layer: layer}
	if d.w.Grid != nil {
		clip := d.w.Clip
		path.Clip = &clip
	}
	d.items = append(d.items, path)
}

// wall keeps labels off a line given in panel axes.
func (d *drawing) wall(pts []r2.Vec, closed bool) {
	line := d.w.PageFromPanel.ApplyAll(pts)
	for _, r := range d.rooms {
		r.wall(line, closed)
	}
}

func (d *drawing) lines() {
	d.line(d.panel.Outline, true, freeEdge, "cut")
	for _, h := range d.panel.Holes {
		d.line(h, true, freeEdge, "cut")
	}
	for i, e := range d.panel.Edges {
		d.edge(e)
		d.endBar(e, d.panel.Edges[(i+1)%len(d.panel.Edges)])
	}
	for _, f := range d.panel.Folds {
		d.line(f.Line, false, foldLine, "fold")
		d.wall(f.Line, false)
	}
	for _, m := range d.panel.Marks {
		d.mark(m)
	}
}

// mark draws as much of a mark as lies on the panel.
func (d *drawing) mark(m pattern.Mark) {
	line := m.Line
	if m.Close && len(line) > 0 {
		line = append(line[:len(line):len(line)], line[0])
	}
	if isHeat(m) || m.Kind == pattern.MarkCovered { // labels may stand on them: they are drawn round those
		return
	}
	d.strokes(line, markLine)
	for _, stroke := range leaving(d.onPanel(m.Axis)) {
		d.line(stroke, false, strapWay, "mark")
		d.wall(stroke, false)
	}
	for _, stroke := range punch(m) {
		d.strokes(stroke, fineLine)
	}
}

// The largest box of what is punched or set at one place, and the cross in it, mm.
const (
	largestPunch = 15.0
	punchCross   = 3.0
)

// punch is the cross in the middle of the box of a rivet, a pivot, a snap or a magnet.
func punch(m pattern.Mark) [][]r2.Vec {
	box := geom.Bounds(m.Line)
	if m.Kind != "fastening" || !m.Close || len(m.Axis) > 0 || box.Max.X-box.Min.X > largestPunch || box.Max.Y-box.Min.Y > largestPunch {
		return nil
	}
	c, x, y := geom.Lerp(box.Min, box.Max, 0.5), r2.Vec{X: punchCross / 2}, r2.Vec{Y: punchCross / 2}
	return [][]r2.Vec{{r2.Sub(c, x), r2.Add(c, x)}, {r2.Sub(c, y), r2.Add(c, y)}}
}

// strokes draws as much of a line of a mark as lies on the panel; texts keep off it.
func (d *drawing) strokes(line []r2.Vec, s draw.Style) {
	for _, run := range d.onPanel(line) {
		d.line(run, false, s, "mark")
		d.wall(run, false)
	}
}

// The arrow in a strap's patch, mm: how long it is at most, as a share of the patch at
// most, how long and half how wide its head is, and how far from the end of the foam.
const (
	wayLong  = 6.0
	wayShare = 0.4
	wayHead  = 2.0
	wayWide  = 1.2
	wayOff   = 0.8
)

// leaving is the arrow where a strap leaves its patch, of what of the patch's middle
// line lies on the foam.
func leaving(axis [][]r2.Vec) [][]r2.Vec {
	if len(axis) == 0 {
		return nil
	}
	run := axis[len(axis)-1]
	full := geom.Dist(run[0], last(run))
	long := min(wayLong, wayShare*full)
	if long < wayHead {
		return nil
	}
	u := r2.Scale(1/full, r2.Sub(last(run), run[0]))
	tip := r2.Sub(last(run), r2.Scale(wayOff, u))
	back, side := r2.Sub(tip, r2.Scale(wayHead, u)), r2.Scale(wayWide, r2.Vec{X: -u.Y, Y: u.X})
	return [][]r2.Vec{{r2.Sub(tip, r2.Scale(long, u)), tip}, {r2.Add(back, side), tip, r2.Sub(back, side)}}
}

// onPanel are the stretches of a line that lie on the panel.
func (d *drawing) onPanel(line []r2.Vec) (runs [][]r2.Vec) {
	for i := 0; i+1 < len(line); i++ {
		for _, s := range geom.ClipLine(line[i], line[i+1], d.panel.Outline) {
			if n := len(runs); n > 0 && geom.Dist(last(runs[n-1]), s[0]) <= geom.Detail {
				runs[n-1] = append(runs[n-1], s[1])
			} else {
				runs = append(runs, []r2.Vec{s[0], s[1]})
			}
		}
	}
	return runs
}

func last(line []r2.Vec) r2.Vec { return line[len(line)-1] }

// inText tells whether a place on the page has a text.
func (d *drawing) inText(p r2.Vec) bool {
	for _, r := range d.rooms {
		if slices.ContainsFunc(r.taken, func(box [4]r2.Vec) bool { return leaf.InBox(box, p) }) {
			return true
		}
	}
	return false
}

// An edge that runs on into the next without a corner that anyone would see, or
// into one that says the same, ends at a short thick bar.
const (
	barDepth = 2.5
	corner   = 15 * math.Pi / 180
)

// arcOf is how far along a line a point on it lies.
func arcOf(line []r2.Vec, cum []float64, p r2.Vec) float64 {
	best, at := math.Inf(1), 0.0
	for i := 0; i+1 < len(line); i++ {
		q, _ := geom.NearestOnSegment(p, line[i], line[i+1])
		if d := geom.Dist(p, q); d < best {
			best, at = d, cum[i]+geom.Dist(line[i], q)
		}
	}
	return at
}

// put sets a block in the first fragment that has a place for it.
func (d *drawing) put(b block, sizes []float64, places func(w, h float64) []place) bool {
	for _, r := range d.rooms {
		if items, ok := r.put(b, sizes, places); ok {
			d.items = append(d.items, items...)
			return true
		}
	}
	return false
}

// alongLine are places for a label beside a line, inward normals at its left
// (the panel lies left of a counter-clockwise outline), nearest to the middle
// first. Only the stretch that a fragment shows is offered by the caller.
func alongLine(line []r2.Vec, offsets []float64, w, h float64) []place {
	cum := geom.Lengths(line)
	total := cum[len(cum)-1]
	var out []place
	for _, off := range offsets {
		for _, f := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9} {
			s := f * total
			p := geom.AtLength(line, cum, s)
			a := geom.AtLength(line, cum, max(0, s-w/2))
			b := geom.AtLength(line, cum, min(total, s+w/2))
			dir := r2.Sub(b, a)
			if r2.Norm(dir) < geom.Coincident {
				continue
			}
			dir = r2.Unit(dir)
			in := r2.Vec{X: -dir.Y, Y: dir.X}
			out = append(out, place{r2.Add(p, r2.Scale(off+h/2, in)), readable(math.Atan2(dir.Y, dir.X))})
		}
	}
	return out
}

func degrees(a float64) string { return fmt.Sprintf("%.0f°", units.Deg(a)) }
