package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func normalOf(a, b, c r3.Vec) r3.Vec { return r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) }

// normal is the outward unit normal of a bent triangle.
func (s *Surface) normal(t int) r3.Vec {
	v := s.T[t]
	return normalOf(s.Bent[v[0]], s.Bent[v[1]], s.Bent[v[2]])
}

// foldAngle is the angle between two outward normals.
func foldAngle(a, b r3.Vec) float64 { return math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)) }

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
func (s *Surface) Lift(p r2.Vec) r3.Vec {
	at, _ := s.LiftWithNormal(p)
	return at
}

// LiftWithNormal also gives the outward unit normal of the bent surface there;
// both are zero for a surface without triangles.
func (s *Surface) LiftWithNormal(p r2.Vec) (at, normal r3.Vec) {
	found, share := s.under(p)
	if found < 0 {
		return at, normal
	}
	for k, v := range s.T[found] {
		at = r3.Add(at, r3.Scale(share[k], s.Bent[v]))
	}
	return at, s.normal(found)
}

// under is the first triangle of the flat panel that a point lies in, or else the
// nearest one, and what its corners count for there; -1 if there is none.
func (s *Surface) under(p r2.Vec) (found int, share [3]float64) {
	closest, least := -1, math.Inf(1) // by boxes, which cost little
	for i, t := range s.T {
		a, b, c := s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]
		off := offBox(p, a, b, c)
		if off >= least {
			continue
		}
		u, v, w, ok := sharesOf(p, a, b, c)
		if !ok {
			continue
		}
		const rounding = -1e-9
		switch inmost := min(u, v, w); {
		case off == 0 && (inmost >= 0 || inmost > rounding && geom.DistToRing([]r2.Vec{a, b, c}, p) == 0):
			return i, [3]float64{u, v, w}
		case off > 0:
			closest, least = i, off
		}
	}
	return s.nearest(p, closest)
}

// nearest is the triangle nearest to a point that lies in none; guess is one that
// may be near, or -1.
func (s *Surface) nearest(p r2.Vec, guess int) (found int, share [3]float64) {
	bound := math.Inf(1)
	if guess >= 0 {
		t := s.T[guess]
		bound = geom.DistToRing([]r2.Vec{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]}, p)
	}
	best, found := math.Inf(1), -1
	for i, t := range s.T {
		a, b, c := s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]
		if off := offBox(p, a, b, c); off >= best || off > bound {
			continue
		}
		u, v, w, ok := sharesOf(p, a, b, c)
		if !ok {
			continue
		}
		if away := geom.DistToRing([]r2.Vec{a, b, c}, p); away < best {
			best, found, share = away, i, [3]float64{u, v, w}
		}
	}
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
