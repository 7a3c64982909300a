package tile

import (
	"math"
	"slices"

	"tasset/internal/draw/leaf"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// room is the free space for labels inside one fragment of a panel, page axes.
type room struct {
	ring  []r2.Vec
	walls [][2]r2.Vec // lines that no label may touch: outline, holes, folds, notches
	boxes []r2.Box    // round so many walls after each other
	taken [][4]r2.Vec // labels that stand already
	holes [][]r2.Vec
	sides []geom.Sides // of the ring and the holes
	lines [][2]r2.Vec  // that point from texts at what they are about
	field *field       // how far places are from walls; nil until it is asked for
}

func newRoom(ring []r2.Vec, holes [][]r2.Vec) *room {
	r := &room{ring: ring, holes: holes}
	for _, line := range append([][]r2.Vec{ring}, holes...) {
		r.wall(line, true)
		r.sides = append(r.sides, geom.SidesOf(line))
	}
	return r
}

// copy is a room in which labels can be tried.
func (r *room) copy() *room {
	r.fromWalls() // once for all copies
	c := *r
	c.taken, c.walls, c.boxes = slices.Clone(r.taken), slices.Clip(r.walls), slices.Clone(r.boxes)
	return &c
}

func (r *room) wall(line []r2.Vec, closed bool) {
	for i := 0; i+1 < len(line); i++ {
		r.addWall(line[i], line[i+1])
	}
	if n := len(line); closed && n > 1 {
		r.addWall(line[n-1], line[0])
	}
}

// together is how many walls share a box, and aroundThem how much larger that is,
// mm (details).
const (
	together   = 8
	aroundThem = 1e-6
)

func (r *room) addWall(a, b r2.Vec) {
	low := r2.Vec{X: min(a.X, b.X) - aroundThem, Y: min(a.Y, b.Y) - aroundThem}
	high := r2.Vec{X: max(a.X, b.X) + aroundThem, Y: max(a.Y, b.Y) + aroundThem}
	if len(r.walls)%together == 0 {
		r.boxes = append(r.boxes, r2.Box{Min: low, Max: high})
	}
	last := &r.boxes[len(r.boxes)-1]
	last.Min = r2.Vec{X: min(last.Min.X, low.X), Y: min(last.Min.Y, low.Y)}
	last.Max = r2.Vec{X: max(last.Max.X, high.X), Y: max(last.Max.Y, high.Y)}
	r.walls = append(r.walls, [2]r2.Vec{a, b})
}

// sharing are the walls of a box.
func (r *room) sharing(box int) [][2]r2.Vec {
	return r.walls[box*together : min((box+1)*together, len(r.walls))]
}

// inside tells whether a point is on the fragment's foam.
func (r *room) inside(p r2.Vec) bool {
	for i, s := range r.sides {
		if s.Inside(p) != (i == 0) {
			return false
		}
	}
	return true
}

// free tells whether a rectangle (its corners counter-clockwise) is on the foam and
// touches nothing. One that touches no wall is on the foam if a corner is.
func (r *room) free(b [4]r2.Vec) bool {
	if !r.inside(b[0]) {
		return false
	}
	round := geom.Bounds(b[:])
	for i, box := range r.boxes {
		if box.Max.X < round.Min.X || box.Min.X > round.Max.X || box.Max.Y < round.Min.Y || box.Min.Y > round.Max.Y {
			continue
		}
		for _, w := range r.sharing(i) {
			if leaf.Touches(b, w[0], w[1]) {
				return false
			}
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

// rectangle has its centre at c, turned by an angle.
func rectangle(c r2.Vec, width, height, angle float64) [4]r2.Vec {
	along := r2.Scale(width/2, r2.Vec{X: math.Cos(angle), Y: math.Sin(angle)})
	up := r2.Scale(height/2, r2.Vec{X: -math.Sin(angle), Y: math.Cos(angle)})
	return [4]r2.Vec{
		r2.Sub(r2.Sub(c, along), up), r2.Sub(r2.Add(c, along), up),
		r2.Add(r2.Add(c, along), up), r2.Add(r2.Sub(c, along), up),
	}
}
