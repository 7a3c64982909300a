package main

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// quality is how much a flat mesh differs from the one in space.
type quality struct {
	energy float64 // Σ area·[(s₁-1)² + (s₂-1)²] over area, s being flat over space
	p95    float64 // what max(|s₁-1|, |s₂-1|) stays below on 95 % of the area
}

// measure is the yardstick for both programs. It has its own arithmetic: the
// singular values come from the two metrics, not from what the solver computes.
func measure(m mesh, flat []r2.Vec) quality {
	type part struct{ strain, area float64 }
	parts := make([]part, len(m.t))
	var q quality
	whole := 0.0
	for k, t := range m.t {
		s1, s2, area := singular(
			r3.Sub(m.v[t[1]], m.v[t[0]]), r3.Sub(m.v[t[2]], m.v[t[0]]),
			r2.Sub(flat[t[1]], flat[t[0]]), r2.Sub(flat[t[2]], flat[t[0]]))
		parts[k] = part{max(math.Abs(s1-1), math.Abs(s2-1)), area}
		q.energy += area * ((s1-1)*(s1-1) + (s2-1)*(s2-1))
		whole += area
	}
	q.energy /= whole
	sort.Slice(parts, func(i, j int) bool { return parts[i].strain < parts[j].strain })
	sum := 0.0
	for _, p := range parts {
		if sum += p.area; sum >= 0.95*whole {
			q.p95 = p.strain
			break
		}
	}
	return q
}

// singular are the singular values of the map from a triangle's sides a, b in
// space to c, d in the plane, and the area in space. Their squares are the
// eigenvalues of G⁻¹·F, the metrics being G in space and F in the plane; a
// triangle turned over has a negative one.
func singular(a, b r3.Vec, c, d r2.Vec) (s1, s2, area float64) {
	g11, g12, g22 := r3.Norm2(a), r3.Dot(a, b), r3.Norm2(b)
	f11, f12, f22 := r2.Norm2(c), r2.Dot(c, d), r2.Norm2(d)
	det := g11*g22 - g12*g12
	trace := (g22*f11 - 2*g12*f12 + g11*f22) / det
	growth := r2.Cross(c, d) / math.Sqrt(det) // s₁·s₂ with its sign
	sum := math.Sqrt(max(0, trace+2*growth))
	difference := math.Sqrt(max(0, trace-2*growth))
	return (sum + difference) / 2, (sum - difference) / 2, math.Sqrt(det) / 2
}
