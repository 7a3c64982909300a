package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Lifter lifts many points of one surface, as Lift does.
type Lifter struct {
	s     *Surface
	boxes []r2.Box // round so many triangles after each other, in the flat panel
	cells cells
}

// sharing is how many triangles share a box (detail).
const sharing = 16

// Lifter prepares the surface, which must not be changed while it is used.
func (s *Surface) Lifter() Lifter {
	l := Lifter{s: s}
	for from := 0; from < len(s.T); from += sharing {
		var corners [3 * sharing]r2.Vec
		n := 0
		for _, t := range s.T[from:min(from+sharing, len(s.T))] {
			n += copy(corners[n:], []r2.Vec{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]})
		}
		l.boxes = append(l.boxes, geom.Bounds(corners[:n]))
	}
	if len(l.boxes) > 1 {
		l.cells = l.intoCells()
	}
	return l
}

// Lift is the place of a point on the bent surface.
func (l Lifter) Lift(p r2.Vec) r3.Vec {
	at, _ := l.LiftWithNormal(p)
	return at
}

// LiftWithNormal also gives the normal there.
func (l Lifter) LiftWithNormal(p r2.Vec) (at, normal r3.Vec) {
	found, share := l.under(p)
	if found < 0 {
		return at, normal
	}
	return blend3(l.s.Bent, l.s.T[found], share), l.s.normal(found)
}

// each visits the triangles in turn until visit says stop, without those whose
// shared box is as far from a point as limit gives.
func (l Lifter) each(p r2.Vec, limit *float64, visit func(i int, a, b, c r2.Vec) (stop bool)) {
	for i := 0; i < len(l.s.T); {
		if i%sharing == 0 && l.boxes != nil && off(p, l.boxes[i/sharing]) >= *limit {
			i += sharing
			continue
		}
		t := l.s.T[i]
		a, b, c := l.s.Flat[t[0]], l.s.Flat[t[1]], l.s.Flat[t[2]]
		if offBox(p, a, b, c) < *limit && visit(i, a, b, c) {
			return
		}
		i++
	}
}

// under is the first triangle of the flat panel that a point lies in, or else the
// nearest one, and what its corners count for there; -1 if there is none.
func (l Lifter) under(p r2.Vec) (found int, share [3]float64) {
	if l.cells.of != nil {
		for _, i := range l.cells.at(p) {
			if share, ok := l.in(int(i), p); ok {
				return int(i), share
			}
		}
	}
	found = -1
	closest, least := -1, math.Inf(1) // by boxes, which cost little
	l.each(p, &least, func(i int, a, b, c r2.Vec) bool {
		if s, ok := l.in(i, p); ok {
			found, share = i, s
		} else if off := offBox(p, a, b, c); off > 0 && r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) > 0 {
			closest, least = i, off
		}
		return found >= 0
	})
	if found >= 0 {
		return found, share
	}
	return l.nearest(p, closest)
}

// in tells whether a point lies in a triangle of the flat panel, and what its corners
// count for there.
func (l Lifter) in(i int, p r2.Vec) (share [3]float64, ok bool) {
	const rounding = -1e-9
	t := l.s.T[i]
	a, b, c := l.s.Flat[t[0]], l.s.Flat[t[1]], l.s.Flat[t[2]]
	u, v, w, ok := sharesOf(p, a, b, c)
	inmost := min(u, v, w)
	ok = ok && offBox(p, a, b, c) == 0 && (inmost >= 0 || inmost > rounding && geom.DistToRing([]r2.Vec{a, b, c}, p) == 0)
	return [3]float64{u, v, w}, ok
}

// nearest is the triangle nearest to a point that lies in none; guess is one that
// may be near, or -1.
func (l Lifter) nearest(p r2.Vec, guess int) (found int, share [3]float64) {
	best, found := math.Inf(1), -1
	limit := math.Inf(1)
	if guess >= 0 {
		t := l.s.T[guess]
		limit = math.Nextafter(geom.DistToRing([]r2.Vec{l.s.Flat[t[0]], l.s.Flat[t[1]], l.s.Flat[t[2]]}, p), limit)
	}
	l.each(p, &limit, func(i int, a, b, c r2.Vec) bool {
		u, v, w, ok := sharesOf(p, a, b, c)
		if away := geom.DistToRing([]r2.Vec{a, b, c}, p); ok && away < best {
			best, found, share = away, i, [3]float64{u, v, w}
			limit = min(limit, best)
		}
		return false
	})
	return found, share
}

// sharesOf is what the corners of a triangle count for at a point; not ok if it
// has no area or lies face down.
func sharesOf(p, a, b, c r2.Vec) (u, v, w float64, ok bool) {
	area := r2.Cross(r2.Sub(b, a), r2.Sub(c, a))
	if area <= 0 {
		return 0, 0, 0, false
	}
	u = r2.Cross(r2.Sub(b, p), r2.Sub(c, p)) / area
	v = r2.Cross(r2.Sub(c, p), r2.Sub(a, p)) / area
	return u, v, 1 - u - v, true
}

// offBox is how far a point at least is from a triangle: from the box round it.
func offBox(p, a, b, c r2.Vec) float64 {
	x := max(0, min(a.X, b.X, c.X)-p.X, p.X-max(a.X, b.X, c.X))
	y := max(0, min(a.Y, b.Y, c.Y)-p.Y, p.Y-max(a.Y, b.Y, c.Y))
	return max(x, y)
}

// off is how far a point is outside a box, along the axis where that is most.
func off(p r2.Vec, b r2.Box) float64 {
	return max(0, b.Min.X-p.X, p.X-b.Max.X, b.Min.Y-p.Y, p.Y-b.Max.Y)
}

// cells are a grid over the flat panel that knows which triangles may lie over a
// place.
type cells struct {
	low    r2.Vec
	size   float64 // of a cell, mm
	across int
	of     []int32 // the triangles whose box meets each cell, in their order:
	first  []int32 // of cell i from of[first[i]] on
}

// intoCells sorts the triangles into about twice as many cells.
func (l Lifter) intoCells() cells {
	box := geom.Bounds(l.s.Flat)
	s := r2.Sub(box.Max, box.Min)
	c := cells{low: box.Min, size: max(math.Sqrt(s.X*s.Y/float64(2*len(l.s.T))), geom.Detail)}
	c.across = int(s.X/c.size) + 1
	c.first = make([]int32, c.across*(int(s.Y/c.size)+1)+1)
	// They are counted first, so that all cells share one list.
	l.eachCell(c, func(_ int32, cell int) { c.first[cell]++ })
	var end int32
	for i, n := range c.first {
		c.first[i] = end
		end += n
	}
	c.of = make([]int32, end)
	next := slices.Clone(c.first)
	l.eachCell(c, func(triangle int32, cell int) {
		c.of[next[cell]] = triangle
		next[cell]++
	})
	return c
}

// eachCell visits the cells that each triangle's box meets.
func (l Lifter) eachCell(c cells, visit func(triangle int32, cell int)) {
	for i, t := range l.s.T {
		b := geom.Bounds([]r2.Vec{l.s.Flat[t[0]], l.s.Flat[t[1]], l.s.Flat[t[2]]})
		fromX, fromY := c.cell(b.Min)
		toX, toY := c.cell(b.Max)
		for y := fromY; y <= toY; y++ {
			for x := fromX; x <= toX; x++ {
				visit(int32(i), y*c.across+x)
			}
		}
	}
}

func (c cells) cell(p r2.Vec) (x, y int) {
	return int(math.Floor((p.X - c.low.X) / c.size)), int(math.Floor((p.Y - c.low.Y) / c.size))
}

// at are the triangles that may lie over a place.
func (c cells) at(p r2.Vec) []int32 {
	x, y := c.cell(p)
	if x < 0 || x >= c.across || y < 0 || y*c.across >= len(c.first)-1 {
		return nil
	}
	i := y*c.across + x
	return c.of[c.first[i]:c.first[i+1]]
}
