package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// normalOf is the unit normal of a triangle that has an area.
func normalOf(a, b, c r3.Vec) r3.Vec {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	return r3.Scale(1/math.Sqrt(r3.Norm2(n)), n)
}

// normal is the outward unit normal of a bent triangle.
func (s *Surface) normal(t int) r3.Vec {
	v := s.T[t]
	return normalOf(s.Bent[v[0]], s.Bent[v[1]], s.Bent[v[2]])
}

// foldAngle is the angle between two outward normals.
func foldAngle(a, b r3.Vec) float64 {
	return math.Atan2(math.Sqrt(r3.Norm2(r3.Cross(a, b))), r3.Dot(a, b))
}

// merge makes every triangle use vertex keep in place of drop.
func (s *Surface) merge(drop, keep int) {
	for i := range s.T {
		for k := range 3 {
			if s.T[i][k] == drop {
				s.T[i][k] = keep
			}
		}
	}
}

// Lift gives the place on the bent surface of a point in the flat panel. A
// point outside the triangles (in the groove of a fold, say) goes with the
// nearest triangle.
func (s *Surface) Lift(p r2.Vec) r3.Vec { return Lifter{s: s}.Lift(p) }

// LiftWithNormal also gives the outward unit normal of the bent surface there;
// both are zero for a surface without triangles.
func (s *Surface) LiftWithNormal(p r2.Vec) (at, normal r3.Vec) {
	return Lifter{s: s}.LiftWithNormal(p)
}

// Lifter lifts many points of one surface, as Lift does.
type Lifter struct {
	s     *Surface
	boxes []r2.Box // round so many triangles after each other, in the flat panel
	wide  []r2.Box // round so many boxes after each other
}

// sharing is how many triangles share a box, and boxes a wide one (detail).
const sharing = 16

// Lifter prepares the surface, which must not be changed while it is used.
func (s *Surface) Lifter() Lifter {
	l := Lifter{s: s}
	for i, t := range s.T {
		box := geom.Bounds([]r2.Vec{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]})
		l.boxes = boxed(l.boxes, i, box)
		l.wide = boxed(l.wide, i/sharing, box)
	}
	return l
}

// boxed takes a box into the one that its number shares.
func boxed(boxes []r2.Box, number int, box r2.Box) []r2.Box {
	i := number / sharing
	if i == len(boxes) {
		return append(boxes, box)
	}
	b := &boxes[i]
	b.Min = r2.Vec{X: min(b.Min.X, box.Min.X), Y: min(b.Min.Y, box.Min.Y)}
	b.Max = r2.Vec{X: max(b.Max.X, box.Max.X), Y: max(b.Max.Y, box.Max.Y)}
	return boxes
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
		if i%(sharing*sharing) == 0 && l.boxes != nil && off(p, l.wide[i/(sharing*sharing)]) >= *limit {
			i += sharing * sharing
			continue
		}
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
	const rounding = -1e-9
	found = -1
	closest, least := -1, math.Inf(1) // by boxes, which cost little
	l.each(p, &least, func(i int, a, b, c r2.Vec) bool {
		u, v, w, ok := sharesOf(p, a, b, c)
		off, inmost := offBox(p, a, b, c), min(u, v, w)
		switch {
		case !ok:
		case off == 0 && (inmost >= 0 || inmost > rounding && geom.DistToRing([]r2.Vec{a, b, c}, p) == 0):
			found, share = i, [3]float64{u, v, w}
		case off > 0:
			closest, least = i, off
		}
		return found >= 0
	})
	if found >= 0 {
		return found, share
	}
	return l.nearest(p, closest)
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

// upInFlat is the direction in the flat panel that climbs fastest along a
// direction in space, taken over the whole panel; zero for a level plate.
func (s *Surface) upInFlat(up r3.Vec) r2.Vec {
	var sum r2.Vec
	for _, t := range s.T {
		a, b, c := s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]
		ha, hb, hc := r3.Dot(up, s.Bent[t[0]]), r3.Dot(up, s.Bent[t[1]]), r3.Dot(up, s.Bent[t[2]])
		// The gradient of a linear function on a triangle, times twice its area.
		g := r2.Add(r2.Scale(hb-ha, quarterTurn(r2.Sub(a, c))), r2.Scale(hc-ha, quarterTurn(r2.Sub(b, a))))
		sum = r2.Add(sum, g)
	}
	return sum
}

func quarterTurn(v r2.Vec) r2.Vec { return r2.Vec{X: -v.Y, Y: v.X} }

// turnedUp turns the flat panel so that up in space is up on paper; level
// panels have forward up.
func (s *Surface) turnedUp(up, forward r3.Vec) {
	d := s.upInFlat(up)
	if f := s.upInFlat(forward); r2.Norm(d) < 0.2*r2.Norm(f) {
		d = f
	}
	l := r2.Norm(d)
	if l < geom.Coincident {
		return
	}
	c, n := d.Y/l, d.X/l
	for i, p := range s.Flat {
		s.Flat[i] = r2.Vec{X: c*p.X - n*p.Y, Y: n*p.X + c*p.Y}
	}
}
