package flatten

import (
	"errors"
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// Triangulate joins two rails by the strip of triangles that bends least: the
// sum of |rung|·θ² is smallest, θ being the angle between the triangles on
// either side of a rung. No rung folds by more than a right angle. Rails may
// begin or end in one point; one of them may be a single point.
//
// To fan over the side at an end as well, hand that side in as part of either
// rail: the rails then share its far corner.
//
// It is an error when a rail repeats a vertex or holds something that is not a
// number, and when every strip would fold back on itself.
//
// Source: Wang and Tang, "Optimal boundary triangulations of an interpolating
// ruled surface", J. Comput. Inf. Sci. Eng. 5(4), 2005: a shortest path over
// the lattice of rungs.
func Triangulate(p, q []r3.Vec) (Strip, error) {
	if err := checkRails(p, q); err != nil {
		return Strip{}, err
	}
	l := newLattice(p, q)
	l.limit(bandWidth)
	end, ok := l.solve()
	if !ok || l.touchesLimit(end) {
		l.limit(1)
		if end, ok = l.solve(); !ok {
			return Strip{}, errors.New("joining two rails by a strip: every way of joining them folds back on itself; the rails would have to run side by side in the same direction")
		}
	}
	return Strip{P: p, Q: q, T: l.triangles(end), Cost: l.cost(end)}, nil
}

func checkRails(p, q []r3.Vec) error {
	if len(p) == 0 || len(q) == 0 || len(p)+len(q) < 3 {
		return fmt.Errorf("joining two rails by a strip: they have %d and %d points; one needs two and the other one", len(p), len(q))
	}
	for k, rail := range [][]r3.Vec{p, q} {
		name := [...]string{"first", "second"}[k]
		for i, v := range rail {
			if s := v.X + v.Y + v.Z; math.IsNaN(s) || math.IsInf(s, 0) {
				return fmt.Errorf("joining two rails by a strip: point %d of the %s rail is %v, not a place", i, name, v)
			}
			if i > 0 && geom.Dist(rail[i-1], v) <= geom.Coincident {
				return fmt.Errorf("joining two rails by a strip: points %d and %d of the %s rail are the same, at %.3f, %.3f, %.3f; each must stand once", i-1, i, name, v.X, v.Y, v.Z)
			}
		}
	}
	return nil
}
