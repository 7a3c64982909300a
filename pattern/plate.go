package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// layPlate lays the flat panel that closes a ring.
func (c *cutter) layPlate(pi int) error {
	p := &c.panels[pi]
	top, _ := c.plates()
	r, up := 0, false
	if pi == top {
		r, up = len(c.rings)-1, true
	}
	line := c.line(c.rings[r])
	centre := geom.Centroid(line)
	for _, q := range append(append([]r2.Vec(nil), line...), centre) {
		flat := r2.Vec{X: -q.Y, Y: q.X} // seen from above with forward up
		if !up {
			flat.X = q.Y // seen from below
		}
		p.surf.Flat = append(p.surf.Flat, flat)
		p.surf.Bent = append(p.surf.Bent, c.rings[r].point(q))
	}
	n := len(line)
	tris := make([][3]int, n)
	for i := range n {
		tris[i] = [3]int{i, (i + 1) % n, n}
	}
	if !starShaped(line, centre) { // its middle does not see all of its rim
		var err error
		if tris, err = geom.TriangulatePolygon(line); err != nil {
			return err
		}
		p.surf.Flat, p.surf.Bent = p.surf.Flat[:n], p.surf.Bent[:n]
	}
	for _, t := range tris {
		if !up {
			t[0], t[1] = t[1], t[0]
		}
		p.surf.T = append(p.surf.T, t)
	}
	c.plateSides(pi, r, up, n)
	return nil
}

// starShaped tells whether all sides of a ring are seen from a point in it.
func starShaped(line []r2.Vec, from r2.Vec) bool {
	for i, p := range line {
		if r2.Cross(r2.Sub(p, from), r2.Sub(line[(i+1)%len(line)], from)) <= 0 {
			return false
		}
	}
	return true
}

func (c *cutter) plateSides(pi, r int, up bool, n int) {
	var sides []side
	i := 0
	for a, arc := range c.rings[r].arcs {
		s := side{seam: c.around[r][a], along: true, ring: c.plan.rings[r].name}
		for j := range arc {
			s.verts = append(s.verts, (i+j)%n)
		}
		i += len(arc) - 1
		if s.seam >= 0 {
			s.at = c.arcLengths(r, a)
		}
		sides = append(sides, s)
	}
	if c.open() {
		sides = append(sides, side{seam: atRim, verts: []int{n - 1, 0}})
	}
	sides = mergeSides(sides)
	if !up {
		for l, h := 0, len(sides)-1; l < h; l, h = l+1, h-1 {
			sides[l], sides[h] = sides[h], sides[l]
		}
		for k := range sides {
			sides[k] = sides[k].reversed()
		}
	}
	for _, s := range sides {
		c.addSide(pi, s)
	}
}
