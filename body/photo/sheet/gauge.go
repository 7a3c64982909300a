package sheet

import (
	"fmt"
	"math"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// What stands round a view on the page, mm.
const (
	rulerRoom = 11.0 // at each side
	titleRoom = 8.0  // above
	inch      = 25.4
)

// drawn is a view on the page, at a scale: page mm for a true one.
type drawn struct {
	v     *view
	zero  float64
	scale float64
	items []draw.Item
	area  draw.Rect // of the photograph, page axes
}

// draw draws a view with rulers and grid; its lower left corner stands at a place.
func (s *Sheet) draw(v *view, scale float64, corner r2.Vec) []draw.Item {
	size := r2.Scale(scale, r2.Sub(v.high, v.low))
	low := r2.Add(corner, at(rulerRoom, rulerRoom))
	d := &drawn{v: v, zero: s.zero, scale: scale, area: draw.Rect{Min: low, Max: r2.Add(low, size)}}
	photograph := draw.Placed(v.encoded, d.area)
	photograph.Layer = "picture"
	d.items = append(d.items, photograph)
	d.grid()
	d.levels()
	d.rulers()
	title := text(r2.Vec{X: d.area.Min.X, Y: d.area.Max.Y + rulerRoom + 1.5}, 5, draw.Start, black, v.shows.String())
	title.Bold = true
	d.items = append(d.items, title)
	return d.items
}

// outer is the size on the page of a view with what stands round it.
func (v *view) outer(scale float64) r2.Vec {
	return r2.Add(r2.Scale(scale, r2.Sub(v.high, v.low)), at(2*rulerRoom, 2*rulerRoom+titleRoom))
}

// to is where a place of the plane stands on the page.
func (d *drawn) to(u, v float64) r2.Vec {
	return r2.Add(d.area.Min, r2.Scale(d.scale, r2.Sub(at(u, v), d.v.low)))
}

// grid is every 10 mm from the centre line and from the zero of heights, every
// 50 where that would be too close.
func (d *drawn) grid() {
	step, strong := 10.0, 50.0
	if d.scale < 0.35 {
		step, strong = 50, 100
	}
	fine := &draw.Path{Stroke: draw.Style{Width: 0.06, Color: blue}, Layer: "grid"}
	thick := &draw.Path{Stroke: draw.Style{Width: 0.14, Color: blue}, Layer: "grid"}
	put := func(n int, a, b r2.Vec) {
		p := fine
		if n%int(strong/step) == 0 {
			p = thick
		}
		p.Subpaths = append(p.Subpaths, []r2.Vec{a, b})
	}
	for n := int(math.Ceil(d.v.low.X / step)); float64(n)*step <= d.v.high.X; n++ {
		put(n, d.to(float64(n)*step, d.v.low.Y), d.to(float64(n)*step, d.v.high.Y))
	}
	for n := int(math.Ceil((d.v.low.Y - d.zero) / step)); float64(n)*step+d.zero <= d.v.high.Y; n++ {
		put(n, d.to(d.v.low.X, float64(n)*step+d.zero), d.to(d.v.high.X, float64(n)*step+d.zero))
	}
	d.items = append(d.items, fine, thick)
}

// levels are the level lines with their names at both ends, the centre line,
// and where the landmarks appear.
func (d *drawn) levels() {
	centre := onPhoto(0.3, blue, d.to(0, d.v.low.Y), d.to(0, d.v.high.Y))
	centre[1].(*draw.Path).Stroke.Dash = []float64{8, 1.5, 1.5, 1.5}
	d.items = append(d.items, centre...)
	d.plate(r2.Add(d.to(0, d.v.low.Y), at(1, 1.5)), draw.Start, centres[d.v.shows])
	last := math.Inf(1)
	for _, l := range d.v.levels {
		a, b := d.to(d.v.low.X, l.height), d.to(d.v.high.X, l.height)
		d.items = append(d.items, onPhoto(0.35, alarm, a, b)...)
		if last-a.Y < 4 { // its name would cover the one above
			continue
		}
		last = a.Y
		says := fmt.Sprintf("%s %.0f", l.name, l.height-d.zero)
		d.plate(r2.Add(a, at(1.5, 0.9)), draw.Start, says)
		d.plate(r2.Add(b, at(-1.5, 0.9)), draw.End, says)
	}
	for _, p := range d.v.seen {
		c := d.to(p.X, p.Y)
		const r = 1.5
		d.items = append(d.items, onPhoto(0.25, alarm, r2.Add(c, at(-r, 0)), r2.Add(c, at(0, r)), r2.Add(c, at(r, 0)), r2.Add(c, at(0, -r)), r2.Add(c, at(-r, 0)))...)
	}
}

// plateLayer is that of the light grounds of words.
const plateLayer = "plate"

func (d *drawn) plate(p r2.Vec, align draw.Align, s string) {
	t := text(p, 2.8, align, black, s)
	k := t.Corners()
	ground := filled(white, k[:]...)
	ground.Layer = plateLayer
	d.items = append(d.items, ground, t)
}

// rulers stand at the four sides: millimetres at the left and below, inches at
// the right and above.
func (d *drawn) rulers() {
	a := d.area
	across := d.v.low.X
	up := d.v.low.Y - d.zero
	d.ruler(a.Min, at(1, 0), at(0, -1), across, d.v.high.X, metric)
	d.ruler(a.Min, at(0, 1), at(-1, 0), up, d.v.high.Y-d.zero, metric)
	d.ruler(at(a.Min.X, a.Max.Y), at(1, 0), at(0, 1), across, d.v.high.X, imperial)
	d.ruler(at(a.Max.X, a.Min.Y), at(0, 1), at(1, 0), up, d.v.high.Y-d.zero, imperial)
}

// gauge is a kind of ruler: the distance of its marks, which are longer, and
// which have figures.
type gauge struct {
	step           float64 // mm
	middle, long   int     // every so many marks
	figure         func(n int) string
	every, coarser int // figures at so many marks; more where there is no room
}

var (
	metric   = gauge{step: 1, middle: 5, long: 10, figure: func(n int) string { return fmt.Sprint(n) }, every: 10, coarser: 50}
	imperial = gauge{step: inch / 8, middle: 4, long: 8, figure: func(n int) string { return fmt.Sprintf("%d in", n/8) }, every: 8, coarser: 16}
)

// ruler draws marks outwards from a line that begins at a corner; from and to
// are what it reads at its ends, true mm.
func (d *drawn) ruler(corner, along, out r2.Vec, from, to float64, g gauge) {
	ticks := &draw.Path{Stroke: draw.Style{Width: 0.12}, Layer: "ruler"}
	end := r2.Add(corner, r2.Scale((to-from)*d.scale, along))
	ticks.Subpaths = append(ticks.Subpaths, []r2.Vec{corner, end})
	least, every := g.sparse(d.scale)
	for n := int(math.Ceil(from / g.step)); float64(n)*g.step <= to; n++ {
		if n%least != 0 {
			continue
		}
		length := 1.2
		switch {
		case n%g.long == 0:
			length = 3
		case n%g.middle == 0:
			length = 2
		}
		foot := r2.Add(corner, r2.Scale((float64(n)*g.step-from)*d.scale, along))
		ticks.Subpaths = append(ticks.Subpaths, []r2.Vec{foot, r2.Add(foot, r2.Scale(length, out))})
		if n%every == 0 {
			d.items = append(d.items, figure(foot, along, out, g.figure(n)))
		}
	}
	d.items = append(d.items, ticks)
}

// sparse is at how many marks a mark is drawn and a figure stands, so that
// neither crowd at a small scale.
func (g gauge) sparse(scale float64) (marks, figures int) {
	marks, figures = 1, g.every
	for _, m := range []int{g.middle, g.long, g.coarser} {
		if g.step*float64(marks)*scale < 0.9 {
			marks = m
		}
	}
	for _, f := range []int{g.coarser, 2 * g.coarser, 4 * g.coarser} {
		if g.step*float64(figures)*scale < 8 {
			figures = f
		}
	}
	return marks, figures
}

func figure(foot, along, out r2.Vec, s string) *draw.Text {
	const size, gap = 2.4, 3.6
	t := text(r2.Add(foot, r2.Scale(gap, out)), size, draw.Centre, black, s)
	t.Layer = "ruler"
	switch {
	case out.Y < 0:
		t.At.Y -= size * draw.CapHeight
	case out.X < 0:
		t.Align, t.At.Y = draw.End, t.At.Y-size*draw.CapHeight/2
	case out.X > 0:
		t.Align, t.At.Y = draw.Start, t.At.Y-size*draw.CapHeight/2
	}
	return t
}
