package tile

import (
	"math"
	"sort"

	"tasset/internal/draw/leaf"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// room is the free space for labels inside one fragment of a panel, page axes.
type room struct {
	ring  []r2.Vec
	walls [][2]r2.Vec // lines that no label may touch: outline, holes, folds, notches
	taken [][4]r2.Vec // labels that stand already
	holes [][]r2.Vec
	lines [][2]r2.Vec // that point from texts at what they are about
}

func newRoom(ring []r2.Vec, holes [][]r2.Vec) *room {
	r := &room{ring: ring, holes: holes}
	r.wall(ring, true)
	for _, h := range holes {
		r.wall(h, true)
	}
	return r
}

// copy is a room in which labels can be tried.
func (r *room) copy() *room {
	c := *r
	c.taken = append([][4]r2.Vec(nil), r.taken...)
	return &c
}

func (r *room) wall(line []r2.Vec, closed bool) {
	for i := 0; i+1 < len(line); i++ {
		r.walls = append(r.walls, [2]r2.Vec{line[i], line[i+1]})
	}
	if n := len(line); closed && n > 1 {
		r.walls = append(r.walls, [2]r2.Vec{line[n-1], line[0]})
	}
}

// inside tells whether a point is on the fragment's foam.
func (r *room) inside(p r2.Vec) bool {
	if !geom.Inside(r.ring, p) {
		return false
	}
	for _, h := range r.holes {
		if geom.Inside(h, p) {
			return false
		}
	}
	return true
}

// clear is the distance from a point to the nearest line or label, 0 outside.
func (r *room) clear(p r2.Vec) float64 {
	if !r.inside(p) {
		return 0
	}
	d := math.Inf(1) // squared
	near := func(a, b r2.Vec) {
		q, _ := geom.NearestOnSegment(p, a, b)
		d = min(d, r2.Norm2(r2.Sub(q, p)))
	}
	for _, w := range r.walls {
		near(w[0], w[1])
	}
	for _, b := range r.taken {
		if leaf.InBox(b, p) {
			return 0
		}
		for i := range b {
			near(b[i], b[(i+1)%4])
		}
	}
	return math.Sqrt(d)
}

// free tells whether a rectangle (its corners counter-clockwise) touches nothing.
func (r *room) free(b [4]r2.Vec) bool {
	for _, c := range b {
		if !r.inside(c) {
			return false
		}
	}
	for _, w := range r.walls {
		if leaf.Touches(b, w[0], w[1]) {
			return false
		}
	}
	for _, t := range r.taken {
		for i := range t {
			if leaf.Touches(b, t[i], t[(i+1)%4]) {
				return false
			}
		}
		if leaf.InBox(t, b[0]) {
			return false
		}
	}
	return true
}

// spot is a place for a label's centre, and how far from it everything is.
type spot struct {
	p     r2.Vec
	clear float64
}

// spots are places over a fragment, the roomiest first.
func (r *room) spots() []spot {
	box := geom.Bounds(r.ring)
	s := r2.Sub(box.Max, box.Min)
	step := max(1.5, math.Sqrt(s.X*s.Y/900))
	var out []spot
	for y := box.Min.Y + step/2; y < box.Max.Y; y += step {
		for x := box.Min.X + step/2; x < box.Max.X; x += step {
			p := r2.Vec{X: x, Y: y}
			if c := r.clear(p); c > 1 {
				out = append(out, spot{p, math.Round(c * 100)})
			}
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].clear > out[b].clear })
	for i := range out {
		out[i].clear /= 100
	}
	return out
}

// rectangle has its centre at c, turned by an angle.
func rectangle(c r2.Vec, width, height, angle float64) [4]r2.Vec {
	along := r2.Scale(width/2, r2.Vec{X: math.Cos(angle), Y: math.Sin(angle)})
	up := r2.Scale(height/2, r2.Vec{X: -math.Sin(angle), Y: math.Cos(angle)})
	return [4]r2.Vec{
		r2.Sub(r2.Sub(c, along), up), r2.Sub(r2.Add(c, along), up),
		r2.Add(r2.Add(c, along), up), r2.Add(r2.Sub(c, along), up),
	}
}
