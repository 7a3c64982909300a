package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// notchSpacing is the aim for the distance of registration marks (common
// practice, no source: every 50 to 80 mm). Shorter edges than shortEdge have
// their ends to be matched by.
const (
	notchSpacing = 65.0
	shortEdge    = 25.0
)

// notches are counted from the start of the span in the seam's own direction,
// on both sides alike. An edge that meets the same edge of another copy runs
// against itself there: it has the notch that is in the middle from both ends.
func notches(e Edge, length float64, itself bool) []Notch {
	if length < shortEdge {
		return nil
	}
	n := max(int(math.Round(length/notchSpacing)), 1)
	if itself {
		n = 1
	}
	cum := geom.Lengths(e.Line)
	total := cum[len(cum)-1]
	var out []Notch
	for i := 1; i <= n; i++ {
		at := length * float64(i) / float64(n+1)
		s := at * total / length
		if !e.Along {
			s = total - s
		}
		out = append(out, Notch{At: at, P: geom.AtLength(e.Line, cum, s), In: quarterTurn(headingAt(e.Line, cum, s)), Rank: i})
	}
	return out
}

// headingAt is the unit way that a line runs at an arc length: over a detail's
// length, so that rounding does not choose between two ways at a vertex.
func headingAt(line []r2.Vec, cum []float64, s float64) r2.Vec {
	return r2.Unit(r2.Sub(geom.AtLength(line, cum, s+geom.Detail), geom.AtLength(line, cum, s-geom.Detail)))
}
