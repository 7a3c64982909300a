package body

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// How dense a part's mesh is: every 3° of a round section, and at most every 5 mm along the axis.
// A girth read off such a ring is 0.011 % short.
const (
	meshTurns = 120
	meshStep  = 5 // mm
)

// Mesh is the skin of the part alone, in part coordinates: rings from the lower
// to the upper end of Range, with a ring at each station; open at the ends but
// for a dome, triangles outwards. Ears and nose are not in it.
func (p *Part) Mesh() geom.Mesh { return p.tube(p.low, p.high) }

// tube is the skin between two levels.
func (p *Part) tube(low, high float64) geom.Mesh {
	var rings [][]r3.Vec
	for _, level := range p.rings(low, high) {
		rings = append(rings, p.ring(level, meshTurns))
	}
	return stitch(rings)
}

// ring is the section at a level, from +z towards +x; at the top of a dome it is
// one point.
func (p *Part) ring(level float64, turns int) []r3.Vec {
	o := p.at(level)
	if p.cap != nil && level >= p.high-geom.Coincident {
		return []r3.Vec{o.point(0)}
	}
	ring := make([]r3.Vec, turns)
	for i := range ring {
		ring[i] = o.point(o.even(2 * math.Pi * float64(i) / float64(turns)))
	}
	return ring
}

// even is the direction in which the section, stretched to a breadth as its
// depth, would be turned by phi: it spreads points evenly on flat sections.
func (o outline) even(phi float64) float64 {
	sin, cos := math.Sincos(phi)
	depth := o.Front
	if cos < 0 {
		depth = o.Back
	}
	if o.Breadth == 0 {
		return phi
	}
	return math.Atan2(o.Breadth/2*sin, depth*cos)
}

// rings are the levels of a mesh's rings: both ends, all stations and knots
// between them, gaps filled evenly, and a dome by equal turns of its profile.
func (p *Part) rings(low, high float64) []float64 {
	marks := []float64{low, high}
	add := func(level float64) {
		if level > low && level < high {
			marks = append(marks, level)
		}
	}
	for _, k := range p.loft.knots {
		add(k.level)
	}
	for _, s := range p.Stations {
		add(s.Level)
	}
	top := high
	if p.cap != nil {
		top = p.cap.level
		add(top)
		const steps = 40 // about 2°
		for i := 1; i < steps; i++ {
			add(p.cap.level + p.cap.rise*math.Pow(math.Sin(math.Pi/2*float64(i)/steps), 2/p.cap.exponent))
		}
	}
	sort.Float64s(marks)
	return fill(marks, top)
}

// fill puts levels at even steps of at most meshStep into the gaps that end at
// or below top, and drops repeats.
func fill(marks []float64, top float64) []float64 {
	out := marks[:1:1]
	for _, m := range marks[1:] {
		last := out[len(out)-1]
		if m-last < 1e-3 {
			continue
		}
		if n := math.Ceil((m - last) / meshStep); m <= top+geom.Coincident {
			for i := 1.0; i < n; i++ {
				out = append(out, lerp(last, m, i/n))
			}
		}
		out = append(out, m)
	}
	return out
}

// stitch joins rings, from below upwards and each running from +z towards +x,
// by outward triangles. A ring of one point is an apex.
func stitch(rings [][]r3.Vec) geom.Mesh {
	m := geom.Mesh{V: slices.Concat(rings...)}
	m.T = make([][3]int, 0, 2*len(m.V))
	low := 0
	for k := range len(rings) - 1 {
		high := low + len(rings[k])
		m.T = band(m.T, low, len(rings[k]), high, len(rings[k+1]))
		low = high
	}
	return m
}

// band adds the triangles between two rings of equally many points, one of which
// may be a single point.
func band(out [][3]int, low, lows, high, highs int) [][3]int {
	for i := range max(lows, highs) {
		a, b := low+i%lows, low+(i+1)%lows
		c, d := high+i%highs, high+(i+1)%highs
		if a != b {
			out = append(out, [3]int{a, b, d})
		}
		if c != d {
			out = append(out, [3]int{a, d, c})
		}
	}
	return out
}
