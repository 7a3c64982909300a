package geom

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// ClipLine gives the stretches of the segment from a to b inside a ring.
func ClipLine(a, b r2.Vec, ring []r2.Vec) [][2]r2.Vec {
	shares := []float64{0, 1}
	ab := r2.Sub(b, a)
	for i, p := range ring {
		pq := r2.Sub(ring[(i+1)%len(ring)], p)
		det := r2.Cross(ab, pq)
		if math.Abs(det) < Coincident*Coincident {
			continue
		}
		ap := r2.Sub(p, a)
		t, u := r2.Cross(ap, pq)/det, r2.Cross(ap, ab)/det
		if t > 0 && t < 1 && u >= 0 && u <= 1 {
			shares = append(shares, t)
		}
	}
	sort.Float64s(shares)
	var out [][2]r2.Vec
	for i := 0; i+1 < len(shares); i++ {
		t0, t1 := shares[i], shares[i+1]
		if (t1-t0)*r2.Norm(ab) < Detail || !Inside(ring, Lerp(a, b, (t0+t1)/2)) {
			continue
		}
		if n := len(out); n > 0 && Dist(out[n-1][1], Lerp(a, b, t0)) < Coincident {
			out[n-1][1] = Lerp(a, b, t1)
			continue
		}
		out = append(out, [2]r2.Vec{Lerp(a, b, t0), Lerp(a, b, t1)})
	}
	return out
}
