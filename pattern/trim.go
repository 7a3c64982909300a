package pattern

import (
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// An opening's curve is followed over the triangles of a panel: each of its
// segments is clipped by each triangle that faces the viewer, and mapped into
// the plane with the triangle. A crossing of a triangle's edge is computed from
// the edge's two points in space in a fixed order, so the panels on either side
// of a seam find it at the very same place.

// place is a place on a raw panel's border: on segment seg, at a share t of it.
type place struct {
	seg int
	t   float64
}

func (p place) param() float64 { return float64(p.seg) + p.t }

// border is a raw panel's border as single segments.
type border struct {
	from, to []int // vertices
	side     []int // index of the side
	step     []int // segment's number within the side
	byEdge   map[[2]int]int
}

func (p *rawPanel) border() border {
	b := border{byEdge: map[[2]int]int{}}
	for i, s := range p.sides {
		for k := 0; k+1 < len(s.verts); k++ {
			b.byEdge[[2]int{s.verts[k], s.verts[k+1]}] = len(b.from)
			b.from, b.to = append(b.from, s.verts[k]), append(b.to, s.verts[k+1])
			b.side, b.step = append(b.side, i), append(b.step, k)
		}
	}
	return b
}

// chain is a stretch of an opening's curve inside one panel, in the plane.
type chain struct {
	opening    string
	pts        []r2.Vec
	start, end place // unused if closed
	closed     bool
}

// piece is a part of one segment of the curve inside one triangle.
type piece struct {
	seg       int
	t0, t1    float64
	p0, p1    r2.Vec // in the plane
	in, out   place  // on the border, if the ends lie there
	inB, outB bool
}

// clip follows a cutout's curve over a panel.
func (p *rawPanel) clip(c cutout, b border) []piece {
	var out []piece
	lo, hi := c.bounds()
	for ti, t := range p.surf.T {
		if r3.Dot(p.surf.normal(ti), c.view.toward) < 1e-6 {
			continue
		}
		tri := seenTriangle{panel: p, t: t, border: b}
		for k := range 3 {
			tri.seen[k] = c.view.see(p.surf.Bent[t[k]])
		}
		if tri.apart(lo, hi) {
			continue
		}
		for s, a := range c.curve {
			if pc, ok := tri.clip(a, c.curve[(s+1)%len(c.curve)]); ok {
				pc.seg = s
				out = append(out, pc)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].seg != out[j].seg {
			return out[i].seg < out[j].seg
		}
		return out[i].t0 < out[j].t0
	})
	return out
}

func (c cutout) bounds() (lo, hi r2.Vec) {
	box := geom.Bounds(c.curve)
	return box.Min, box.Max
}

type seenTriangle struct {
	panel  *rawPanel
	t      [3]int
	seen   [3]r2.Vec
	border border
}

func (t *seenTriangle) apart(lo, hi r2.Vec) bool {
	a, b, c := t.seen[0], t.seen[1], t.seen[2]
	return max(a.X, b.X, c.X) < lo.X || min(a.X, b.X, c.X) > hi.X ||
		max(a.Y, b.Y, c.Y) < lo.Y || min(a.Y, b.Y, c.Y) > hi.Y
}

// shortest (rounding): a clipped part of a segment shorter than this share of
// it is the touch of a corner.
const shortest = 1e-12

// clip gives the part of the segment from a to b inside the triangle.
func (t *seenTriangle) clip(a, b r2.Vec) (piece, bool) {
	pc := piece{t0: 0, t1: 1}
	in, out := -1, -1
	for k := range 3 {
		u, w, sign := t.ordered(k)
		oa, ob := sign*beside(u, w, a), sign*beside(u, w, b)
		switch {
		case oa < 0 && ob < 0, oa < 0 && ob == 0, oa == 0 && ob < 0:
			return pc, false
		case oa < 0:
			if s := oa / (oa - ob); s > pc.t0 {
				pc.t0, in = s, k
			}
		case ob < 0:
			if s := oa / (oa - ob); s < pc.t1 {
				pc.t1, out = s, k
			}
		case oa == 0 && in < 0 && pc.t0 == 0: // the segment starts on the edge
			in = k
		case ob == 0 && out < 0 && pc.t1 == 1: // and this one ends on it
			out = k
		}
	}
	if pc.t1-pc.t0 <= shortest {
		return pc, false
	}
	pc.p0, pc.in, pc.inB = t.land(a, b, pc.t0, in)
	pc.p1, pc.out, pc.outB = t.land(a, b, pc.t1, out)
	return pc, true
}

// onEdge (rounding): a point of the curve this near to an edge, in mm, is on it.
const onEdge = 1e-9

// beside is how far p lies to the left of the line from u to w.
func beside(u, w, p r2.Vec) float64 {
	d := r2.Cross(r2.Unit(r2.Sub(w, u)), r2.Sub(p, u))
	if math.Abs(d) < onEdge {
		return 0
	}
	return d
}

// ordered gives the ends of edge k in an order that does not depend on the
// triangle, and -1 if that is against the triangle's sense.
func (t *seenTriangle) ordered(k int) (u, w r2.Vec, sign float64) {
	i, j := k, (k+1)%3
	if before(t.panel.surf.Bent[t.t[j]], t.panel.surf.Bent[t.t[i]]) {
		return t.seen[j], t.seen[i], -1
	}
	return t.seen[i], t.seen[j], 1
}

func before(a, b r3.Vec) bool {
	if a.Y != b.Y {
		return a.Y < b.Y
	}
	if a.X != b.X {
		return a.X < b.X
	}
	return a.Z < b.Z
}

// land maps the curve's point at a share s of a segment into the plane. On an
// edge the place on the edge decides, so that neighbours agree.
func (t *seenTriangle) land(a, b r2.Vec, s float64, edge int) (r2.Vec, place, bool) {
	flat := t.panel.surf.Flat
	if edge < 0 {
		p := geom.Lerp(a, b, s)
		area := r2.Cross(r2.Sub(t.seen[1], t.seen[0]), r2.Sub(t.seen[2], t.seen[0]))
		u := r2.Cross(r2.Sub(t.seen[1], p), r2.Sub(t.seen[2], p)) / area
		v := r2.Cross(r2.Sub(t.seen[2], p), r2.Sub(t.seen[0], p)) / area
		q := r2.Add(r2.Scale(u, flat[t.t[0]]), r2.Scale(v, flat[t.t[1]]))
		return r2.Add(q, r2.Scale(1-u-v, flat[t.t[2]])), place{}, false
	}
	u, w, sign := t.ordered(edge)
	du, dw := r2.Cross(r2.Sub(b, a), r2.Sub(u, a)), r2.Cross(r2.Sub(b, a), r2.Sub(w, a))
	share := du / (du - dw)
	i, j := t.t[edge], t.t[(edge+1)%3]
	if sign < 0 {
		share = 1 - share
	}
	p := geom.Lerp(flat[i], flat[j], share)
	if seg, ok := t.border.byEdge[[2]int{i, j}]; ok {
		return p, place{seg, share}, true
	}
	return p, place{}, false
}

// chains joins pieces that follow each other into stretches of the curve
// inside the panel.
func chains(pieces []piece, segs int, name string) ([]chain, error) {
	n := len(pieces)
	if n == 0 {
		return nil, nil
	}
	first := -1
	for i := range pieces {
		if !follows(pieces[(i+n-1)%n], pieces[i], segs) {
			first = i
			break
		}
	}
	if first < 0 {
		c := chain{opening: name, closed: true}
		for _, pc := range pieces {
			c.pts = append(c.pts, pc.p0)
		}
		return []chain{c}, nil
	}
	var out []chain
	for i := range n {
		pc := pieces[(first+i)%n]
		if i == 0 || !follows(pieces[(first+i-1)%n], pc, segs) {
			if !pc.inB {
				return nil, notSeen(name)
			}
			out = append(out, chain{opening: name, start: pc.in, pts: []r2.Vec{pc.p0}})
		}
		c := &out[len(out)-1]
		if last := c.pts[len(c.pts)-1]; r2.Norm(r2.Sub(last, pc.p0)) > geom.Coincident {
			c.pts = append(c.pts, pc.p0) // over the groove of a fold
		}
		c.pts = append(c.pts, pc.p1)
		if i == n-1 || !follows(pc, pieces[(first+i+1)%n], segs) {
			if !pc.outB {
				return nil, notSeen(name)
			}
			c.end = pc.out
		}
	}
	return out, nil
}

func notSeen(name string) error {
	return fmt.Errorf("opening %q runs round to where it cannot be seen from its own side; make it narrower, or draw it from another side", name)
}

// follows tells whether piece b goes on where piece a ends.
func follows(a, b piece, segs int) bool {
	const same = 1e-9 // rounding of a share
	if a.seg == b.seg {
		return math.Abs(a.t1-b.t0) < same
	}
	return (a.seg+1)%segs == b.seg && a.t1 > 1-same && b.t0 < same
}

// loop is a closed part of a trimmed panel's border: stretches of the raw
// border and stretches of openings in turn.
type loop struct{ parts []loopPart }

type loopPart struct {
	chain    *chain // run against its own direction; nil for a stretch of the border
	from, to place
	whole    bool // the whole border
}

// trim cuts openings out of a panel. What is left may be several parts, or
// nothing; holes lie inside the parts.
func (p *rawPanel) trim(cuts []cutout) (loops []loop, holes []chain, err error) {
	b := p.border()
	var open []chain
	for _, c := range cuts {
		cs, err := chains(p.clip(c, b), len(c.curve), c.name)
		if err != nil {
			return nil, nil, err
		}
		for _, ch := range cs {
			if ch.closed {
				holes = append(holes, ch)
			} else {
				open = append(open, ch)
			}
		}
		if len(cs) == 0 && p.swallowedBy(c) {
			return nil, nil, nil
		}
	}
	if len(open) == 0 {
		return []loop{{parts: []loopPart{{whole: true}}}}, holes, nil
	}
	loops, err = loopsOf(open)
	return loops, holes, err
}

// swallowedBy tells whether a panel that the curve does not cross lies wholly
// inside it.
func (p *rawPanel) swallowedBy(c cutout) bool {
	for ti, t := range p.surf.T {
		if r3.Dot(p.surf.normal(ti), c.view.toward) < 1e-6 {
			return false
		}
		for _, v := range t {
			if !geom.Inside(c.curve, c.view.see(p.surf.Bent[v])) {
				return false
			}
		}
	}
	return true
}

// loopsOf goes round what is left. A curve enters a panel with the opening on
// its left, so the border beyond the place where it enters is kept, up to the
// next place where a curve leaves.
func loopsOf(open []chain) ([]loop, error) {
	type event struct {
		at    float64
		chain int
		enter bool
	}
	var events []event
	for i, c := range open {
		events = append(events, event{c.start.param(), i, true}, event{c.end.param(), i, false})
	}
	sort.SliceStable(events, func(i, j int) bool { return events[i].at < events[j].at })
	for i, e := range events {
		if next := events[(i+1)%len(events)]; e.enter == next.enter {
			return nil, fmt.Errorf("openings %q and %q run into each other; move them apart", open[e.chain].opening, open[next.chain].opening)
		}
	}
	used := make([]bool, len(open))
	var loops []loop
	for i, e := range events {
		if !e.enter || used[e.chain] {
			continue
		}
		var l loop
		for !used[events[i].chain] {
			used[events[i].chain] = true
			next := events[(i+1)%len(events)]
			l.parts = append(l.parts,
				loopPart{from: open[events[i].chain].start, to: open[next.chain].end},
				loopPart{chain: &open[next.chain]})
			for j, f := range events {
				if f.enter && f.chain == next.chain {
					i = j
				}
			}
		}
		loops = append(loops, l)
	}
	return loops, nil
}
