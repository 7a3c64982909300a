package nest

import (
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Pixel is the side of the squares that a sheet is divided into for laying
// parts, in mm. A part takes every square that it enters, so a finer division
// wastes less and takes longer.
const Pixel = 2.0

// touch (rounding), in mm: an outline that enters a square by less does not
// take it, so that parts of whole pixels may lie edge to edge.
const touch = 1e-7

// run is a stretch of pixels [from, to) in a row.
type run struct{ from, to int }

// mask is the set of pixels that a part takes, row by row from the bottom.
// Pixel (0, 0) has its lower left corner at the lower left corner of the box
// round the grown outline.
type mask struct {
	rows  [][]run
	width int
	box   r2.Box // of the outline that was handed in, not grown
}

// newMask finds the pixels that an outline grown by grow on all sides enters.
// The pixel grid passes through origin.
func newMask(outline []r2.Vec, grow float64, origin r2.Vec) mask {
	box := geom.Bounds(outline)
	m := mask{box: box}
	m.width = count(box.Max.X + grow - origin.X)
	m.rows = make([][]run, max(count(box.Max.Y+grow-origin.Y), 0))
	touched := make([][]run, len(m.rows))
	for i, a := range outline {
		m.touch(touched, a, outline[(i+1)%len(outline)], grow, origin)
	}
	for y := range m.rows {
		middle := origin.Y + (float64(y)+0.5)*Pixel
		m.rows[y] = merge(append(touched[y], inside(outline, middle, origin.X)...))
	}
	return m
}

// count is the number of pixels that cover a length.
func count(length float64) int { return int(math.Ceil((length - touch) / Pixel)) }

// touch adds the pixels within grow of the edge ab.
func (m *mask) touch(rows [][]run, a, b r2.Vec, grow float64, origin r2.Vec) {
	a, b = r2.Sub(a, origin), r2.Sub(b, origin)
	low := int(math.Floor((min(a.Y, b.Y) - grow + touch) / Pixel))
	high := count(max(a.Y, b.Y) + grow)
	for y := max(low, 0); y < min(high, len(rows)); y++ {
		x0, x1 := reach(a, b, grow, float64(y)*Pixel+touch, float64(y+1)*Pixel-touch)
		if x0 > x1 {
			continue
		}
		from, to := max(int(math.Floor((x0+touch)/Pixel)), 0), count(x1)
		if from < to { // else it runs along a border between pixels
			rows[y] = append(rows[y], run{from, to})
		}
	}
}

// reach is the range of x that the points within grow of the segment ab cover
// between the heights y0 and y1; x0 > x1 if there are none. These points are
// the convex hull of two discs: the range comes of the discs and of the two
// straight sides between them.
func reach(a, b r2.Vec, grow, y0, y1 float64) (x0, x1 float64) {
	x0, x1 = math.Inf(1), math.Inf(-1)
	add := func(x float64) { x0, x1 = min(x0, x), max(x1, x) }
	for _, c := range []r2.Vec{a, b} {
		dy := c.Y - min(max(c.Y, y0), y1)
		if half2 := grow*grow - dy*dy; half2 >= 0 {
			half := math.Sqrt(half2)
			add(c.X - half)
			add(c.X + half)
		}
	}
	var side r2.Vec
	if d := r2.Sub(b, a); grow > 0 && d != (r2.Vec{}) {
		side = r2.Scale(grow/r2.Norm(d), r2.Vec{X: -d.Y, Y: d.X})
	}
	for _, s := range []r2.Vec{side, r2.Scale(-1, side)} {
		clip(r2.Add(a, s), r2.Add(b, s), y0, y1, add)
	}
	return x0, x1
}

// clip hands on the ends, in x, of the part of a segment between two heights.
func clip(a, b r2.Vec, y0, y1 float64, add func(x float64)) {
	if a.Y > b.Y {
		a, b = b, a
	}
	if b.Y < y0 || a.Y > y1 {
		return
	}
	at := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + min(max((y-a.Y)/(b.Y-a.Y), 0), 1)*(b.X-a.X)
	}
	add(at(max(y0, a.Y)))
	add(at(min(y1, b.Y)))
	if a.Y == b.Y {
		add(b.X)
	}
}

// inside are the pixels whose middles at a height lie inside an outline. A
// pixel that no edge enters lies inside or outside as a whole.
func inside(outline []r2.Vec, y, left float64) []run {
	var xs []float64
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	sort.Float64s(xs)
	var out []run
	for k := 0; k+1 < len(xs); k += 2 {
		from := int(math.Ceil((xs[k]-left)/Pixel - 0.5))
		to := int(math.Floor((xs[k+1]-left)/Pixel + 0.5))
		if to > from {
			out = append(out, run{max(from, 0), to})
		}
	}
	return out
}

// merge joins runs that overlap or meet, from left to right.
func merge(runs []run) []run {
	sort.Slice(runs, func(i, j int) bool {
		return runs[i].from < runs[j].from || runs[i].from == runs[j].from && runs[i].to < runs[j].to
	})
	var out []run
	for _, r := range runs {
		if k := len(out) - 1; k >= 0 && r.from <= out[k].to {
			out[k].to = max(out[k].to, r.to)
		} else {
			out = append(out, r)
		}
	}
	return out
}
