package body

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// How dense the figure is: every 9° of a round section, and every fourth ring
// of a part's mesh, which is all that shows in a picture of a whole body.
const (
	figureTurns = 40
	figureRings = 4
)

// Figure is the skin as Mesh has it, in fewer triangles, for pictures of the
// whole body. No size is to be read off it.
func (f *Form) Figure() geom.Mesh {
	var m geom.Mesh
	for _, p := range f.parts {
		m.Append(inBody(p.Frame, p.figure()))
		for _, d := range p.details {
			m.Append(inBody(p.Frame, d))
		}
	}
	return m
}

func (p *Part) figure() geom.Mesh {
	low, high := p.ends()
	levels := p.rings(low, high)
	var rings [][]r3.Vec
	for i, level := range levels {
		if i%figureRings == 0 || i == len(levels)-1 {
			rings = append(rings, p.ring(level, figureTurns))
		}
	}
	last := rings[len(rings)-1]
	rings = append([][]r3.Vec{{middle(rings[0])}}, rings...)
	if len(last) > 1 {
		rings = append(rings, []r3.Vec{middle(last)})
	}
	return stitch(rings)
}

// middle is the mean of a ring's points.
func middle(ring []r3.Vec) r3.Vec {
	var sum r3.Vec
	for _, p := range ring {
		sum = r3.Add(sum, p)
	}
	return r3.Scale(1/float64(len(ring)), sum)
}
