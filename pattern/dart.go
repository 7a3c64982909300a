package pattern

import (
	"math"
	"slices"

	"tasset/internal/flatten"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// triedDarts is how many darts are laid flat to choose from: the best of the
// first three is nearly the best of all (measured in package flatten).
const triedDarts = 3

// darted cuts a dart into a panel that is strained too much: the one that
// leaves the least strain, if it is little enough.
func (c *cutter) darted(g formedGrid) (best formedPanel, ok bool) {
	t := g.rows.Triangles()
	patch, err := c.patchOf(g, t)
	if err != nil {
		return best, false
	}
	_, at, err := patch.Swell(g.v)
	if err != nil {
		return best, false
	}
	cuts, err := patch.Cuts(g.v, g.rows.Lines(at))
	if err != nil {
		return best, false
	}
	tried, least := 0, float64(mostEasy)
	for _, cut := range cuts {
		if cut.Seam || tried == triedDarts {
			continue
		}
		tried++
		f, err := c.withDart(g, t, cut.Path)
		if err == nil && c.load(f) <= least {
			best, least, ok = f, c.load(f), true
		}
	}
	return best, ok
}

// withDart is a panel with a dart, laid flat.
func (c *cutter) withDart(g formedGrid, t [][3]int, path []int) (formedPanel, error) {
	cut, twins, err := flatten.Dart(len(g.v), t, path)
	if err != nil {
		return formedPanel{}, err
	}
	g.dart, g.twins, g.v = path, twins, slices.Clone(g.v)
	for _, v := range twins {
		g.v = append(g.v, g.v[v])
	}
	return c.solved(g, cut)
}

// reflectDart gives g the mirror image of the dart of o, whose vertices are
// those of g by image. In a mirror the dart's legs change sides.
func (g *formedGrid) reflectDart(o formedGrid, image []int) []int {
	back := make([]int, len(image))
	for i, of := range image {
		back[of] = i
	}
	out := slices.Clone(image)
	for _, v := range o.dart {
		g.dart = append(g.dart, back[v])
	}
	n := len(image)
	for k, v := range g.dart[:len(o.twins)] {
		g.twins, g.v = append(g.twins, v), append(g.v, g.v[v])
		out = append(out, out[v])
		out[v] = n + k
	}
	return out
}

// addDart makes a seam of a formed panel's dart, and lets the border run down
// one leg and up the other. New vertices are on the left, walking to the tip.
func (c *cutter) addDart(pi int, g formedGrid) {
	p := &c.panels[pi]
	n := g.rows.Vertices()
	tip := g.dart[len(g.dart)-1]
	var line []r3.Vec
	down := []int{}
	for k, v := range g.dart {
		line = append(line, g.v[v])
		if k < len(g.twins) {
			down = append(down, n+k)
		}
	}
	down = append(down, tip)
	up := slices.Clone(g.dart)
	slices.Reverse(up)
	at := geom.Lengths(line)
	seam := len(c.seams)
	c.seams = append(c.seams, rawSeam{kind: Butt, line: line})
	legs := []side{{seam: seam, verts: down, at: at, along: true}, {seam: seam, verts: up, at: reverse(at)}}
	p.sides = cutSides(p.sides, g.dart[0], n, legs)
}

// cutSides puts legs into a border at vertex foot. The part before the foot ends
// at its twin.
func cutSides(sides []side, foot, twin int, legs []side) []side {
	for i, s := range sides {
		k := slices.Index(s.verts, foot)
		if k <= 0 {
			continue
		}
		before, after := s, s
		before.verts = append(slices.Clone(s.verts[:k]), twin)
		after.verts = s.verts[k:]
		if s.at != nil {
			before.at, after.at = s.at[:k+1], s.at[k:]
		}
		put := append([]side{before}, legs...)
		if k < len(s.verts)-1 {
			put = append(put, after)
		}
		return slices.Replace(slices.Clone(sides), i, i+1, put...)
	}
	return sides
}

// dartSeam is the number of the seam whose two sides follow each other on the
// panel's border: the shortest, as the seam of a cone does so too. It is 0 where
// openings have taken the dart away.
func (p *Panel) dartSeam() int {
	seam, least := 0, math.Inf(1)
	for i, e := range p.Edges {
		if next := p.Edges[(i+1)%len(p.Edges)]; e.Seam > 0 && e.Seam == next.Seam && e.Along != next.Along && e.Length < least {
			seam, least = e.Seam, e.Length
		}
	}
	return seam
}
