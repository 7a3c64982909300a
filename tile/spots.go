package tile

import (
	"cmp"
	"math"
	"slices"

	"tasset/internal/draw/leaf"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// spot is a place for a label's centre, and how far from it everything is.
type spot struct {
	p     r2.Vec
	clear float64
}

// spots are places over a fragment, the roomiest first.
func (r *room) spots() []spot {
	var out []spot
	for _, at := range r.fromWalls().places {
		if c := r.clear(at.p, at.walls); c > 1 {
			out = append(out, spot{at.p, math.Round(c * 100)})
		}
	}
	slices.SortStableFunc(out, func(a, b spot) int { return cmp.Compare(b.clear, a.clear) })
	for i := range out {
		out[i].clear /= 100
	}
	return out
}

// clear is the distance from a place on the foam to the nearest wall, whose square
// is known, or label; 0 in a label.
func (r *room) clear(p r2.Vec, walls float64) float64 {
	d := walls
	if d <= 1 { // no label stands so near
		return 0
	}
	for _, b := range r.taken {
		if leaf.InBox(b, p) {
			return 0
		}
		for i := range b {
			d = min(d, toWall(p, [2]r2.Vec{b[i], b[(i+1)%4]}))
		}
	}
	return math.Sqrt(d)
}

// field is how far places over a fragment are from its walls. A room and its
// copies share it, as it is never changed.
type field struct {
	places []fromWalls
	of     int // so many walls
}

// fromWalls is a place and the square of its distance from the nearest wall.
type fromWalls struct {
	p     r2.Vec
	walls float64
}

// fromWalls is the field of all walls. Those that have come since it was last
// asked for are looked at alone.
func (r *room) fromWalls() *field {
	switch {
	case r.field == nil:
		r.field = r.newField()
	case r.field.of < len(r.walls):
		next := &field{places: slices.Clone(r.field.places), of: len(r.walls)}
		for i := range next.places {
			at := &next.places[i]
			for _, w := range r.walls[r.field.of:] {
				at.walls = min(at.walls, toWall(at.p, w))
			}
		}
		r.field = next
	}
	return r.field
}

func (r *room) newField() *field {
	box := geom.Bounds(r.ring)
	s := r2.Sub(box.Max, box.Min)
	step := max(1.5, math.Sqrt(s.X*s.Y/900))
	f := &field{of: len(r.walls)}
	near := 0 // the box that held the wall nearest to the last place
	for y := box.Min.Y + step/2; y < box.Max.Y; y += step {
		for x := box.Min.X + step/2; x < box.Max.X; x += step {
			if p := (r2.Vec{X: x, Y: y}); r.inside(p) {
				d := math.Inf(1)
				d, near = r.toWalls(p, near)
				f.places = append(f.places, fromWalls{p, d})
			}
		}
	}
	return f
}

// toWalls is the square of the distance from a place to the nearest wall, and
// the box that this is in. A box where it may be is looked into first.
func (r *room) toWalls(p r2.Vec, first int) (d float64, box int) {
	d, box = math.Inf(1), first
	look := func(i int) {
		for _, w := range r.sharing(i) {
			if e := toWall(p, w); e < d {
				d, box = e, i
			}
		}
	}
	look(first)
	for i, b := range r.boxes {
		x, y := max(0, b.Min.X-p.X, p.X-b.Max.X), max(0, b.Min.Y-p.Y, p.Y-b.Max.Y)
		if i != first && x*x+y*y < d {
			look(i)
		}
	}
	return d, box
}

// toWall is the square of the distance from a place to a wall.
func toWall(p r2.Vec, w [2]r2.Vec) float64 {
	q, _ := geom.NearestOnSegment(p, w[0], w[1])
	return r2.Norm2(r2.Sub(q, p))
}
