package body

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// blob is a closed solid |x/a|ⁿ + |y/b|ⁿ + |z/c|ⁿ = 1 about a centre: an
// ellipsoid for n = 2, a rounded box for larger n.
func blob(centre, half r3.Vec, n float64) geom.Mesh {
	const turns, rows = 40, 20
	at := func(row, turn float64) r3.Vec {
		sinRow, cosRow := math.Sincos(math.Pi * (row/rows - .5))
		sin, cos := math.Sincos(2 * math.Pi * turn / turns)
		u := r3.Vec{X: cosRow * sin, Y: sinRow, Z: cosRow * cos}
		r := powerMean(powerMean(math.Abs(u.X), math.Abs(u.Z), n), math.Abs(u.Y), n)
		return r3.Add(centre, r3.Vec{X: half.X * u.X / r, Y: half.Y * u.Y / r, Z: half.Z * u.Z / r})
	}
	rings := [][]r3.Vec{{at(0, 0)}}
	for row := 1; row < rows; row++ {
		ring := make([]r3.Vec, turns)
		for i := range ring {
			ring[i] = at(float64(row), float64(i))
		}
		rings = append(rings, ring)
	}
	return stitch(append(rings, []r3.Vec{at(rows, 0)}))
}
