package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// OffsetRing moves every edge of a convex counter-clockwise ring outwards by d
// (inwards if negative) and mitres the corners; vertex i of the result belongs
// to vertex i of the ring. The perimeter grows by exactly 2·d·Σtan(fold/2)
// over the corners' folds, which tends to 2π·d for a smooth ring. Corners that
// fold by more than 160° are held to the mitre of 160°. A ring that is not
// convex is offset too, but may cross itself where d exceeds its hollows.
func OffsetRing(ring []r2.Vec, d float64) []r2.Vec {
	normals := edgeNormals(ring)
	out := make([]r2.Vec, len(ring))
	for i, p := range ring {
		before, after := normals[(i+len(ring)-1)%len(ring)], normals[i]
		out[i] = r2.Add(p, r2.Scale(d, mitre(before, after)))
	}
	return out
}

// OffsetLine moves a line to its right by d, square to its edges and mitred at
// its corners; its ends move square to the first and last edge.
func OffsetLine(line []r2.Vec, d float64) []r2.Vec {
	return OffsetLineBy(line, func(float64) float64 { return d })
}

// OffsetLineBy is OffsetLine by a distance that changes along the line, which is asked for
// with a share of its length, and evenly from one point to the next.
func OffsetLineBy(line []r2.Vec, d func(share float64) float64) []r2.Vec {
	out := make([]r2.Vec, len(line))
	normals, cum := edgeNormals(line), Lengths(line)
	for i, p := range line {
		before, after := normals[max(i-1, 0)], normals[min(i, len(line)-2)]
		share := 0.0
		if i > 0 {
			share = cum[i] / max(cum[len(cum)-1], Coincident)
		}
		out[i] = r2.Add(p, r2.Scale(d(share), mitre(before, after)))
	}
	return out
}

// mitre is the vector from a corner to the corner of its edges moved out by 1.
func mitre(before, after r2.Vec) r2.Vec {
	sharpest := 1 + math.Cos(160*math.Pi/180)
	return r2.Scale(1/max(1+r2.Dot(before, after), sharpest), r2.Add(before, after))
}

// edgeNormals are the outward unit normals of the edges i to i+1 of a
// counter-clockwise ring. An edge without length has the one before's.
func edgeNormals(ring []r2.Vec) []r2.Vec {
	n := len(ring)
	out := make([]r2.Vec, n)
	var last r2.Vec
	for k := range 2 * n {
		i := k % n
		if e := r2.Sub(ring[(i+1)%n], ring[i]); r2.Norm(e) > Coincident {
			last = r2.Unit(r2.Vec{X: e.Y, Y: -e.X})
		}
		out[i] = last
	}
	return out
}
