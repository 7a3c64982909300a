package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// standsOff is how far the bent shell stands outside its limit at most: where
// flat facets meet over a round body, and where straight foam spans a hollow.
// Rings with corners, or that take their outline from another level, are not
// meant to follow the body; they are left out.
func (s *shell) standsOff() float64 {
	most := 0.0
	for i := range s.bands {
		most = s.bandStandsOff(&s.bands[i], most)
	}
	return most
}

// bandStandsOff is how far one band does, or most if that is more.
func (s *shell) bandStandsOff(b *band, most float64) float64 {
	if b.along {
		for _, rail := range b.rails {
			for _, p := range rail {
				most = fartherOut(s.limit.at(p.Y), ringVec(p), most)
			}
		}
		return most
	}
	if b.formed || s.plan.rings[b.from].scaled != nil || s.plan.rings[b.to].scaled != nil ||
		s.plan.rings[b.from].drawnFlat() || s.plan.rings[b.to].drawnFlat() {
		return most
	}
	lower, upper := s.line(s.rings[b.from]), s.line(s.rings[b.to])
	l0, l1 := s.rings[b.from].level, s.rings[b.to].level
	for i := range levelsPerBand + 1 {
		t := float64(i) / levelsPerBand
		limit := s.limit.at(l0 + t*(l1-l0))
		if len(limit) < 3 {
			continue
		}
		if ridges := s.plan.rings[b.to].ridges; len(ridges) > 0 { // asked for, too
			limit, _ = creasedRing(limit, ridges)
		}
		for j := 0; j < len(lower); j += 4 {
			most = fartherOut(limit, geom.Lerp(lower[j], upper[j], t), most)
		}
	}
	return most
}

// fartherOut is how far a point lies outside a convex ring, or most if that is
// more; inside it or where there is no ring, most.
func fartherOut(ring []r2.Vec, p r2.Vec, most float64) float64 {
	for _, q := range ring {
		if r2.Norm2(r2.Sub(p, q)) <= most*most { // no farther from the ring
			return most
		}
	}
	if len(ring) < 3 || geom.Inside(ring, p) {
		return most
	}
	return max(most, geom.DistToRing(ring, p))
}

func (r ringPlan) drawnFlat() bool {
	return len(r.corners) > 0 || r.drawn != nil || r.section != r.level
}
