package pattern

import (
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// outline is a closed curve with corners at some of its points.
type outline struct {
	ring    []r2.Vec
	corners []int
}

// mirrored is the curve's image about x = 0, in the same sense and from the
// same point on.
func (o outline) mirrored() outline {
	out := o.turnedRound()
	for i := range out.ring {
		out.ring[i].X = -out.ring[i].X
	}
	return out
}

// ccw is the curve counter-clockwise.
func (o outline) ccw() outline {
	if geom.Area(o.ring) < 0 {
		return o.turnedRound()
	}
	return o
}

// turnedRound is the curve in the other sense, from the same point on.
func (o outline) turnedRound() outline {
	n := len(o.ring)
	out := outline{ring: make([]r2.Vec, n)}
	for i := range n {
		out.ring[i] = o.ring[(n-i)%n]
	}
	for _, c := range o.corners {
		out.corners = append(out.corners, (n-c)%n)
	}
	sort.Ints(out.corners)
	return out
}

// apart is how far one curve runs off another at most.
func (o outline) apart(p outline) float64 {
	most := 0.0
	for _, q := range o.ring {
		most = max(most, geom.DistToRing(p.ring, q))
	}
	return most
}

// between is the curve half way between two that run in the same sense: corner
// by corner where they have as many corners, else by shares of their lengths.
func (o outline) between(p outline) []r2.Vec {
	a, b := o.stretches(), p.stretches()
	if len(a) != len(b) {
		a, b = outline{ring: o.ring}.stretches(), outline{ring: p.ring}.stretches()
	}
	shift := 0
	best := math.Inf(1)
	for s := range b {
		sum := 0.0
		for i := range a {
			sum += r2.Norm2(r2.Sub(a[i][0], b[(i+s)%len(b)][0]))
		}
		if sum < best-geom.Coincident {
			best, shift = sum, s
		}
	}
	var out []r2.Vec
	for i := range a {
		out = append(out, halfWay(a[i], b[(i+shift)%len(b)])...)
	}
	return out
}

// stretches are the lines from each corner to the next; those of a curve
// without corners are its chords when it is divided evenly.
func (o outline) stretches() [][]r2.Vec {
	n := len(o.ring)
	ring, at := o.ring, o.corners
	if len(at) == 0 {
		n = evenParts
		line := append(append([]r2.Vec(nil), ring...), ring[0])
		ring = geom.Resample(line, n+1)[:n]
		for i := range n {
			at = append(at, i)
		}
	}
	var out [][]r2.Vec
	for i, from := range at {
		to := at[(i+1)%len(at)]
		if to <= from {
			to += n
		}
		var line []r2.Vec
		for k := from; k <= to; k++ {
			line = append(line, ring[k%n])
		}
		out = append(out, line)
	}
	return out
}

// evenParts (detail): into so many chords a curve without corners is divided;
// round a face opening they are about as long as smoothStep.
const evenParts = 360

// halfWay is the line half way between two, without its end.
func halfWay(a, b []r2.Vec) []r2.Vec {
	n := max(len(a), len(b)) - 1
	p, q := geom.Resample(a, n+1), geom.Resample(b, n+1)
	out := make([]r2.Vec, n)
	for i := range out {
		out[i] = geom.Lerp(p[i], q[i], 0.5)
	}
	return out
}
