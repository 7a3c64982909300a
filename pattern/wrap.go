package pattern

import (
	"fmt"

	"tasset/internal/flatten"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// run is a stretch of a panel between two folds, and where its vertices stand
// in the panel's surface.
type run struct {
	arcs         []int
	lower, upper []int // vertices along the rings, in order
	strip        flatten.Strip
}

// layWrap lays a panel that wraps the axis: straight along it, bent round it,
// and folded where it has corners or creases.
func (c *cutter) layWrap(pi int) error {
	p := &c.panels[pi]
	b := c.bands[p.band]
	var runs []run
	for _, arcs := range c.runsOf(p.arcs) {
		strip, err := c.stripOf(b, p.band, arcs)
		if err != nil {
			return err
		}
		r := run{arcs: arcs, strip: strip}
		if len(runs) == 0 {
			r.place(&p.surf, strip.Unroll(), -1, -1)
		} else {
			c.attach(p, &runs[len(runs)-1], &r, b.name)
		}
		runs = append(runs, r)
	}
	c.wrapSides(pi, b, runs)
	return nil
}

// runsOf divides a panel's arcs at the keys where it folds or is mirrored.
func (c *cutter) runsOf(arcs []int) [][]int {
	out := [][]int{{arcs[0]}}
	for _, a := range arcs[1:] {
		k := c.keys[a]
		if k.corner >= 0 || k.crease >= 0 || k.split {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], a)
	}
	return out
}

// stripOf triangulates a run. A run on the mirrored side takes its image's
// triangles, so that left and right panels are the same.
func (c *cutter) stripOf(b band, bi int, arcs []int) (flatten.Strip, error) {
	id := [3]int{bi, arcs[0], arcs[len(arcs)-1]}
	if s, ok := c.strips[id]; ok {
		return s, nil
	}
	p, q := c.railsOf(b, arcs)
	if image, ok := c.strips[[3]int{len(c.bands) - 1 - bi, id[1], id[2]}]; ok && c.plan.ends {
		return flatten.Strip{P: p, Q: q, T: swapRails(image.T, len(p)), Cost: image.Cost}, nil
	}
	if c.plan.mirror && c.plan.span == nil && c.mirrorArc(arcs[0]) >= 0 && c.mirrorArc(arcs[len(arcs)-1]) >= 0 {
		image := [3]int{bi, c.mirrorArc(arcs[len(arcs)-1]), c.mirrorArc(arcs[0])}
		if s, ok := c.strips[image]; ok {
			return flatten.Strip{P: p, Q: q, T: mirrorTriangles(s.T, len(p), len(q)), Cost: s.Cost}, nil
		}
	}
	s, err := flatten.Triangulate(p, q)
	c.strips[id] = s
	return s, err
}

// mirrorTriangles numbers a strip's triangles as seen in a mirror, where both
// rails run the other way.
func mirrorTriangles(t [][3]int, np, nq int) [][3]int {
	image := func(v int) int {
		if v < np {
			return np - 1 - v
		}
		return np + nq - 1 - (v - np)
	}
	out := make([][3]int, len(t))
	for i, t := range t {
		out[len(out)-1-i] = [3]int{image(t[0]), image(t[2]), image(t[1])}
	}
	return out
}

func (c *cutter) ringLine(r int, arcs []int) []r3.Vec {
	var out []r3.Vec
	for i, a := range arcs {
		pts := c.rings[r].arcs[a]
		if i > 0 {
			pts = pts[1:]
		}
		for _, p := range pts {
			out = append(out, c.rings[r].point(p))
		}
	}
	return out
}

// place appends a run's vertices and triangles to a surface. A shared first
// rung's vertices are given by lower and upper; -1 makes new ones.
func (r *run) place(s *Surface, flat flatten.Flat, lower, upper int) {
	put := func(flat []r2.Vec, bent []r3.Vec, first int) []int {
		ids := make([]int, len(bent))
		for i := range bent {
			if i == 0 && first >= 0 {
				ids[0] = first
				continue
			}
			ids[i] = len(s.Flat)
			s.Flat, s.Bent = append(s.Flat, flat[i]), append(s.Bent, bent[i])
		}
		return ids
	}
	r.lower, r.upper = put(flat.P, r.strip.P, lower), put(flat.Q, r.strip.Q, upper)
	ids := append(append([]int(nil), r.lower...), r.upper...)
	for _, t := range r.strip.T {
		s.T = append(s.T, [3]int{ids[t[0]], ids[t[1]], ids[t[2]]})
	}
}

// attach lays a run beside the one before it, apart by what the fold's hinge
// asks for.
func (c *cutter) attach(p *rawPanel, before, next *run, band string) {
	lo, hi := before.lower[len(before.lower)-1], before.upper[len(before.upper)-1]
	flat := next.strip.Unroll()
	k := c.keys[next.arcs[0]]
	isFold := k.corner >= 0 || k.crease >= 0
	kind, gap, angle := "", 0.0, 0.0
	if isFold {
		t := next.strip.T[0]
		v := next.strip.Vertices()
		angle = foldAngle(p.surf.normal(len(p.surf.T)-1), normalOf(v[t[0]], v[t[1]], v[t[2]]))
		kind = c.plan.fold(k.angle, band)
		gap = c.hinge(kind, angle)
	}
	m := flatten.Join([2]r2.Vec{p.surf.Flat[lo], p.surf.Flat[hi]}, [2]r2.Vec{flat.P[0], flat.Q[0]}, gap, gap)
	laid := flatten.Flat{P: m.ApplyAll(flat.P), Q: m.ApplyAll(flat.Q)}
	if gap == 0 {
		next.place(&p.surf, laid, lo, hi)
	} else {
		next.place(&p.surf, laid, -1, -1)
	}
	if isFold {
		p.folds = append(p.folds, rawFold{left: [2]int{lo, hi}, right: [2]int{next.lower[0], next.upper[0]}, kind: kind, angle: angle})
	}
}

// wrapSides goes round a wrapped panel's border: the lower ring, the upright
// seam on its right, the upper ring backwards, the seam on its left.
func (c *cutter) wrapSides(pi int, b band, runs []run) {
	lower, upper := c.endsOf(&c.panels[pi], b, runs)
	first, last := runs[0], runs[len(runs)-1]
	rightKey := last.arcs[len(last.arcs)-1] + 1
	if !c.open() {
		rightKey %= len(c.keys)
	}
	for _, s := range lower {
		c.addSide(pi, s)
	}
	c.addSide(pi, c.upSide(b, rightKey, []int{last.lower[len(last.lower)-1], last.upper[len(last.upper)-1]}, true))
	for i := len(upper) - 1; i >= 0; i-- {
		c.addSide(pi, upper[i].reversed())
	}
	c.addSide(pi, c.upSide(b, first.arcs[0], []int{first.upper[0], first.lower[0]}, false))
}

func (c *cutter) upSide(b band, k int, verts []int, up bool) side {
	bi := 0
	for i := range c.bands {
		if c.bands[i].from == b.from && c.bands[i].crest == b.crest {
			bi = i
		}
	}
	s := side{seam: c.upright[bi][k], verts: verts, along: up, gap: c.plan.gap != nil && c.keys[k].edge != bothSides}
	if s.seam >= 0 {
		s.at = lengthsOf(c.seams[s.seam].line, true)
		if !up {
			s.at = reverse(s.at)
		}
	}
	return s
}

func reverse(in []float64) []float64 {
	out := make([]float64, len(in))
	for i, v := range in {
		out[len(in)-1-i] = v
	}
	return out
}

// ringSides are the stretches of a panel's border along a ring, in the
// direction of growing angles.
func (c *cutter) ringSides(r int, runs []run, verts func(run) []int) []side {
	var out []side
	for n, run := range runs {
		ids := verts(run)
		if n > 0 {
			if prev := verts(runs[n-1]); prev[len(prev)-1] != ids[0] {
				out = append(out, side{seam: atHinge, verts: []int{prev[len(prev)-1], ids[0]}})
			}
		}
		for _, a := range run.arcs {
			n := len(c.rings[r].arcs[a])
			s := side{seam: c.around[r][a], along: true, verts: ids[:n:n], ring: c.plan.rings[r].name}
			if s.seam >= 0 {
				s.at = c.arcLengths(r, a)
			}
			out = append(out, s)
			ids = ids[n-1:]
		}
	}
	return mergeSides(out)
}

// layGore lays a panel that bends along the axis, flat across.
func (c *cutter) layGore(pi int) error {
	p := &c.panels[pi]
	b := c.bands[p.band]
	left := p.arcs[0]
	right := (p.arcs[len(p.arcs)-1] + 1) % len(c.keys)
	strip, err := c.goreStrip(b, p.band, left, right)
	if err != nil {
		return err
	}
	r := run{strip: strip}
	r.place(&p.surf, strip.Unroll(), -1, -1)
	if b.pointed { // both rails end in one vertex
		p.surf.merge(r.upper[len(r.upper)-1], r.lower[len(r.lower)-1])
		r.upper[len(r.upper)-1] = r.lower[len(r.lower)-1]
	}
	lower, err := c.chordSide(b.from, p.arcs, []int{r.upper[0], r.lower[0]}, true)
	if err != nil {
		return err
	}
	c.addSide(pi, lower)
	c.addSide(pi, c.upSide(b, right, r.lower, true))
	if !b.pointed {
		upper, err := c.chordSide(b.to, p.arcs, []int{r.lower[len(r.lower)-1], r.upper[len(r.upper)-1]}, false)
		if err != nil {
			return err
		}
		c.addSide(pi, upper)
	}
	back := make([]int, len(r.upper))
	for i, v := range r.upper {
		back[len(back)-1-i] = v
	}
	c.addSide(pi, c.upSide(b, left, back, false))
	return nil
}

func (c *cutter) goreStrip(b band, bi, left, right int) (flatten.Strip, error) {
	p, q := b.rails[right], b.rails[left]
	id := [3]int{bi, left, right}
	if c.plan.mirror {
		ml, mr := c.mirrorKey(right), c.mirrorKey(left)
		if s, ok := c.strips[[3]int{bi, ml, mr}]; ok && ml >= 0 && mr >= 0 {
			return flatten.Strip{P: p, Q: q, T: swapRails(s.T, len(p)), Cost: s.Cost}, nil
		}
	}
	s, err := flatten.Triangulate(p, q)
	c.strips[id] = s
	return s, err
}

func (c *cutter) mirrorKey(k int) int {
	for m := range c.keys {
		if d := turn(c.keys[m].angle + c.keys[k].angle); d < sameAngle {
			return m
		}
	}
	return -1
}

// swapRails numbers a strip's triangles as seen in a mirror that swaps its
// rails, which have n points each.
func swapRails(t [][3]int, n int) [][3]int {
	out := make([][3]int, len(t))
	for i, t := range t {
		image := func(v int) int { return (v + n) % (2 * n) }
		out[i] = [3]int{image(t[0]), image(t[2]), image(t[1])}
	}
	return out
}

// chordSide is the end of a gore: a straight stretch of a ring.
func (c *cutter) chordSide(r int, arcs []int, verts []int, along bool) (side, error) {
	first, last := arcs[0], arcs[len(arcs)-1]
	s := side{seam: c.around[r][first], verts: verts, along: along, ring: c.plan.rings[r].name}
	for _, a := range arcs {
		if c.around[r][a] != s.seam {
			return s, unmet{fmt.Errorf("a seam of the band beside it ends in its middle at ring %q; give both bands the same seams", s.ring)}
		}
	}
	if s.seam >= 0 {
		end := c.arcLengths(r, last)
		s.at = []float64{c.arcLengths(r, first)[0], end[len(end)-1]}
		if !along {
			s.at = reverse(s.at)
		}
	}
	return s, nil
}

// unmet is an error of bands whose seams do not meet.
type unmet struct{ error }
