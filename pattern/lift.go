package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// pointedOut is the limit of a shell whose axis points out of a joint. A plane
// square to that axis cuts the limb lengthwise, so no ring can be taken from
// it; the drawn shell is lifted along the axis instead until it lies beyond.
func (l *limit) pointedOut() *limit {
	return &limit{low: math.Inf(1), high: math.Inf(-1), slices: map[float64][]r2.Vec{}, beyond: geom.NewLocator(l.mesh)}
}

// lifts (detail) is at how many places between two rings, and between the last
// one and its middle, the shell is held against the body below it.
const lifts = 8

// lift moves a shell along its axis by the least that lets all of it lie beyond
// the body below it.
func (s *shell) lift() {
	if s.limit.beyond == nil {
		return
	}
	need := 0.0
	for _, b := range s.bands {
		lower, upper := s.points(b.from), []r3.Vec{s.apex}
		if !b.pointed {
			upper = s.points(b.to)
		}
		need = max(need, s.below(lower, upper))
	}
	last := len(s.rings) - 1
	need = max(need, s.below(s.points(last), []r3.Vec{s.rings[last].point(s.middle(last))}))
	if need == 0 {
		return
	}
	s.plan.rings = slices.Clone(s.plan.rings)
	for i := range s.rings {
		s.rings[i].level += need
		s.plan.rings[i].lift(need)
	}
	s.apex.Y += need
	s.pushed = max(s.pushed, need)
}

// points are those of a ring, in shell axes.
func (s *shell) points(i int) []r3.Vec {
	var out []r3.Vec
	for _, q := range s.line(s.rings[i]) {
		out = append(out, s.rings[i].point(q))
	}
	return out
}

// below is how far the body stands out of the surface between two lines at
// most. The second may be one point.
func (s *shell) below(lower, upper []r3.Vec) float64 {
	const far = 1000
	most := 0.0
	for j, p := range lower {
		q := upper[min(j, len(upper)-1)]
		for i := range lifts + 1 {
			at := geom.Lerp(p, q, float64(i)/lifts)
			if t, _, ok := s.limit.beyond.Hit(r3.Vec{X: at.X, Y: at.Y + far, Z: at.Z}, r3.Vec{Y: -1}); ok {
				most = max(most, far-t)
			}
		}
	}
	return most
}
