package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// crest closes a shell on a line: two sides run up to it from a ring, and where
// the ring is wider than the line, its ends are triangles.
type crest struct {
	at     *float64 // level; nil: where the limit ends
	along  float64  // angle of its direction
	across *float64 // length; nil: that of the ring along it
	under  bool     // it lies below the first ring

	dir      r2.Vec
	middle   r2.Vec
	from, to float64 // reach along dir
	level    float64
}

func (e *evaluator) crest(c *template.Cap, under bool) *crest {
	if c == nil || c.Kind != "ridge" || !e.on(c.When) {
		return nil
	}
	out := &crest{along: e.num(c.Along), under: under}
	if c.At.Set() {
		at := e.num(c.At)
		out.at = &at
	}
	if c.Across.Set() {
		length := e.size(c.Across, "length of the ridge")
		out.across = &length
	}
	return out
}

// closeOnCrests adds the bands that run to a ridge: at the cap the template's
// own if it has one, else one with the seams of the band beside.
func (p *plan) closeOnCrests(top, base *crest) error {
	if len(p.bands) == 0 || top == nil && base == nil {
		return nil
	}
	if p.turned {
		return fmt.Errorf("a ridge cannot close a shell whose axis runs across; write axis: up, or close it with a plate")
	}
	last := len(p.rings) - 1
	if top != nil {
		if b := &p.bands[len(p.bands)-1]; b.from != last {
			p.bands = append(p.bands, bandPlan{name: b.name + " to the ridge", from: last, to: last, seams: b.seams, panels: b.panels})
		}
		b := &p.bands[len(p.bands)-1]
		if b.crest = top; b.along || b.formed {
			return fmt.Errorf("the band %q runs to a ridge, so it can only be bent around; leave its bend out", b.name)
		}
	}
	if base != nil {
		b := p.bands[0]
		p.bands = append([]bandPlan{{name: b.name + " to the ridge", seams: b.seams, panels: b.panels, crest: base}}, p.bands...)
	}
	return nil
}

// placeCrests finds the lines on which the shell ends.
func (s *shell) placeCrests() error {
	for i := range s.bands {
		b := &s.bands[i]
		if b.crest == nil {
			continue
		}
		c := *b.crest
		b.crest = &c
		line, mid := s.line(s.rings[b.from]), s.middle(b.from)
		c.dir, c.middle = direction(c.along), mid
		c.from, c.to = -geom.Support(line, r2.Scale(-1, c.dir)), geom.Support(line, c.dir)
		if c.across != nil {
			at := r2.Dot(mid, c.dir)
			c.from, c.to = at-*c.across/2, at+*c.across/2
		}
		c.level = s.limit.high
		if c.under {
			c.level = s.limit.low
		}
		if c.at != nil {
			c.level = *c.at
		}
		ring := s.rings[b.from].level
		beyond, word := c.level-ring, "above"
		if c.under {
			beyond, word = -beyond, "below"
		}
		switch name := s.plan.rings[b.from].name; {
		case !(beyond > geom.Detail) || math.IsInf(beyond, 0):
			return fmt.Errorf("the ridge lies at %.1f mm, not %s ring %q at %.1f mm; move it: at", c.level, word, name, ring)
		case c.to-c.from < geom.Detail:
			return fmt.Errorf("the ridge is %.1f mm long; give it a length: across, or write kind: point", c.to-c.from)
		}
		*b.crest = c
	}
	return nil
}

// nearest is the place on the crest, along it, that a point of the ring runs to.
func (c *crest) nearest(q r2.Vec) float64 { return min(max(r2.Dot(q, c.dir), c.from), c.to) }

// crestPoint is a place on a crest in shell axes.
func (s *shell) crestPoint(c *crest, t float64) r3.Vec {
	q := r2.Add(c.middle, r2.Scale(t-r2.Dot(c.middle, c.dir), c.dir))
	if s.plan.spine != nil {
		return s.plan.spine.frame(c.level).Point(shellVec(q, 0))
	}
	return shellVec(q, c.level)
}

// crestLine is the stretch of a crest that a run of a ring goes up to, each
// place once, from one end to the other without turning back.
func (c *cutter) crestLine(b band, arcs []int) []r3.Vec {
	var ts []float64
	for _, a := range arcs {
		for _, q := range c.rings[b.from].arcs[a] {
			ts = append(ts, b.crest.nearest(q))
		}
	}
	last := ts[len(ts)-1]
	for i := 1; i < len(ts); i++ {
		lo, hi := min(ts[i-1], last), max(ts[i-1], last)
		ts[i] = min(max(ts[i], lo), hi)
	}
	var out []r3.Vec
	for _, t := range ts {
		p := c.crestPoint(b.crest, t)
		if len(out) == 0 || geom.Dist(out[len(out)-1], p) > geom.Coincident {
			out = append(out, p)
		}
	}
	if end := c.crestPoint(b.crest, last); len(out) > 1 {
		out[len(out)-1] = end
	}
	return out
}

// crestSeam is the line that the two sides of a crest are joined on; of an open
// shell it is a rim.
func (c *cutter) crestSeam(b band) int {
	if b.crest == nil || c.open() {
		return atRim
	}
	c.seams = append(c.seams, rawSeam{kind: Butt, line: []r3.Vec{c.crestPoint(b.crest, b.crest.from), c.crestPoint(b.crest, b.crest.to)}})
	return len(c.seams) - 1
}

// crestSides are the stretches of a wrapped panel's border along its crest, in
// the direction of growing angles.
func (c *cutter) crestSides(p *rawPanel, b band, runs []run, verts func(run) []int) []side {
	seam := c.crests[p.band]
	start := c.crestPoint(b.crest, b.crest.from)
	var out []side
	for n, r := range runs {
		ids := verts(r)
		if n > 0 {
			if prev := verts(runs[n-1]); prev[len(prev)-1] != ids[0] {
				out = append(out, side{seam: atHinge, verts: []int{prev[len(prev)-1], ids[0]}})
			}
		}
		if len(ids) < 2 {
			continue
		}
		s := side{seam: seam, verts: ids}
		for _, v := range ids {
			s.at = append(s.at, geom.Dist(start, p.surf.Bent[v]))
		}
		if s.along = s.at[len(s.at)-1] > s.at[0]; seam < 0 {
			s.at = nil
		}
		k := len(out) - 1
		if k >= 0 && out[k].seam == seam && out[k].along == s.along && out[k].verts[len(out[k].verts)-1] == ids[0] {
			both := mergeSides([]side{out[k], s})
			out = append(out[:k], both...)
			continue
		}
		out = append(out, s)
	}
	return out
}

// liesBelow tells whether a band reaches up to a ring. One that runs to a crest
// or a point has a ring on one side only.
func (b bandPlan) liesBelow(ring int) bool {
	return b.to == ring && !b.pointed && (b.crest == nil || b.crest.under)
}

// liesAbove tells whether a band begins at a ring.
func (b bandPlan) liesAbove(ring int) bool {
	return b.from == ring && (b.crest == nil || !b.crest.under)
}

// railsOf are the lines that a run of a wrapped band lies between.
func (c *cutter) railsOf(b band, arcs []int) (lower, upper []r3.Vec) {
	lower = c.ringLine(b.from, arcs)
	switch {
	case b.crest != nil && b.crest.under:
		return c.crestLine(b, arcs), lower
	case b.crest != nil:
		return lower, c.crestLine(b, arcs)
	case b.pointed:
		return lower, []r3.Vec{c.apex}
	}
	return lower, c.ringLine(b.to, arcs)
}

// endsOf are the stretches of a wrapped panel's border at its lower and upper
// ends, in the direction of growing angles.
func (c *cutter) endsOf(p *rawPanel, b band, runs []run) (lower, upper []side) {
	low, high := func(r run) []int { return r.lower }, func(r run) []int { return r.upper }
	switch {
	case b.crest != nil && b.crest.under:
		return c.crestSides(p, b, runs, low), c.ringSides(b.to, runs, high)
	case b.crest != nil:
		return c.ringSides(b.from, runs, low), c.crestSides(p, b, runs, high)
	case b.pointed:
		return c.ringSides(b.from, runs, low), c.tipSides(runs)
	}
	return c.ringSides(b.from, runs, low), c.ringSides(b.to, runs, high)
}

// crestUpline is the line of a band at a key, between its ring and its crest.
func (c *cutter) crestUpline(b band, k int) []r3.Vec {
	arcs, end := c.rings[b.from].arcs, 0
	a := k
	if k == len(arcs) {
		a, end = k-1, len(arcs[k-1])-1
	}
	out := []r3.Vec{c.ringPoint(b.from, k), c.crestPoint(b.crest, b.crest.nearest(arcs[a][end]))}
	if b.crest.under {
		slices.Reverse(out)
	}
	return out
}
