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
