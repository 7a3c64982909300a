package tile

import (
	"math"
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// row is one line of a label.
type row struct {
	s     string
	scale float64 // of the label's font size
	bold  bool
}

// block is a label: rows under each other, and perhaps a small drawing at
// their left.
type block struct {
	rows []row
	icon func(at r2.Vec, size, angle float64) []draw.Item // centred at; size is its side
}

const leading = 1.25

// leastText is the smallest text on a template, mm: 5 pt, the least that is read
// without a glass (common practice, no source).
const leastText = 5 * 25.4 / 72

// in is the row's size in a label of a font size.
func (r row) in(size float64) float64 { return max(size*r.scale, leastText) }

// measure is the width and height of a block in a font size.
func (b block) measure(size float64) (w, h float64) {
	for _, r := range b.rows {
		w = max(w, draw.TextWidth(r.s, r.in(size), r.bold))
	}
	h = b.height(size)
	if b.icon != nil {
		w += b.iconSide(size) * 1.25
		h = max(h, b.iconSide(size))
	}
	return w, h
}

// height of the rows alone.
func (b block) height(size float64) (h float64) {
	for _, r := range b.rows {
		h += r.in(size) * leading
	}
	return h
}

func (b block) iconSide(size float64) float64 { return 2.4 * size }

// draw sets the block with its centre at c.
func (b block) draw(c r2.Vec, size, angle float64) []draw.Item {
	along := r2.Vec{X: math.Cos(angle), Y: math.Sin(angle)}
	up := r2.Vec{X: -along.Y, Y: along.X}
	width, _ := b.measure(size)
	var items []draw.Item
	middle := 0.0
	if b.icon != nil {
		side := b.iconSide(size)
		items = append(items, b.icon(r2.Sub(c, r2.Scale(width/2-side/2, along)), side, angle)...)
		middle = side * 1.25 / 2
	}
	y := b.height(size) / 2
	for _, r := range b.rows {
		h := r.in(size) * leading
		base := y - h/2 - r.in(size)*(draw.CapHeight-draw.Descent)/2
		items = append(items, &draw.Text{
			At: r2.Add(c, r2.Add(r2.Scale(middle, along), r2.Scale(base, up))), Size: r.in(size),
			Angle: angle, Align: draw.Centre, Bold: r.bold, S: r.s, Layer: "text",
		})
		y -= h
	}
	return items
}

// put sets a block at the first of some places and sizes where it is free, and
// takes its place. It tries all places at a size before a smaller one.
func (r *room) put(b block, sizes []float64, places func(w, h float64) []place) ([]draw.Item, bool) {
	return r.putIf(b, sizes, places, nil)
}

// putIf is put at such places only where the block's first row may stand; nil is
// anywhere.
func (r *room) putIf(b block, sizes []float64, places func(w, h float64) []place, may func(head r2.Vec) bool) ([]draw.Item, bool) {
	for _, size := range sizes {
		w, h := b.measure(size)
		for _, at := range places(w, h) {
			box := rectangle(at.c, w+1.2, h+0.6, at.angle)
			if (may == nil || may(b.head(at, size))) && r.free(box) {
				r.taken = append(r.taken, box)
				return b.draw(at.c, size, at.angle), true
			}
		}
	}
	return nil, false
}

// head is where the first row of a block stands: the middle of its base line.
func (b block) head(at place, size float64) r2.Vec {
	along := r2.Vec{X: math.Cos(at.angle), Y: math.Sin(at.angle)}
	up := r2.Vec{X: -along.Y, Y: along.X}
	middle := 0.0
	if b.icon != nil {
		middle = b.iconSide(size) * 1.25 / 2
	}
	first := b.rows[0].in(size)
	base := b.height(size)/2 - first*leading/2 - first*(draw.CapHeight-draw.Descent)/2
	return r2.Add(at.c, r2.Add(r2.Scale(middle, along), r2.Scale(base, up)))
}

type place struct {
	c     r2.Vec
	angle float64
}

// readable turns an angle so that text along it is not upside down on the page.
func readable(angle float64) float64 {
	a := math.Mod(angle, math.Pi)
	if a > math.Pi/2+1e-6 {
		a -= math.Pi
	}
	if a <= -math.Pi/2+1e-6 {
		a += math.Pi
	}
	return a
}

// wrap breaks a sentence into lines of at most n letters.
func wrap(s string, n int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > n {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
