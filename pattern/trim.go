package pattern

import (
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

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

// chain is a line inside one panel, in the plane, along which it is cut: a
// stretch of one cutout's curve, or of several where they cross.
type chain struct {
	strokes    []stroke
	start, end place // unused if closed
	closed     bool
}

// stroke is a stretch of one cutout's curve.
type stroke struct {
	name string
	rim  bool // of a drawn rim
	pts  []r2.Vec
}

// said is what the maker calls the curve.
func (s stroke) said() string {
	if s.rim {
		return fmt.Sprintf("the drawn edge %q", s.name)
	}
	return fmt.Sprintf("the opening %q", s.name)
}

// chains joins pieces that follow each other into stretches of the cutout's
// curve inside the panel.
func (c *cutout) chains(pieces []piece) ([]chain, error) {
	n, segs := len(pieces), len(c.curve)
	of := stroke{name: c.name, rim: c.rim}
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
		for _, pc := range pieces {
			of.pts = append(of.pts, pc.p0)
		}
		return []chain{{strokes: []stroke{of}, closed: true}}, nil
	}
	var out []chain
	for i := range n {
		pc := pieces[(first+i)%n]
		if i == 0 || !follows(pieces[(first+i-1)%n], pc, segs) {
			if !pc.inB {
				return nil, of.notSeen()
			}
			begun := of
			begun.pts = []r2.Vec{pc.p0}
			out = append(out, chain{start: pc.in, strokes: []stroke{begun}})
		}
		ch := &out[len(out)-1]
		line := &ch.strokes[0].pts
		if last := (*line)[len(*line)-1]; r2.Norm(r2.Sub(last, pc.p0)) > geom.Coincident {
			*line = append(*line, pc.p0) // over the groove of a fold
		}
		*line = append(*line, pc.p1)
		if i == n-1 || !follows(pc, pieces[(first+i+1)%n], segs) {
			if !pc.outB {
				return nil, of.notSeen()
			}
			ch.end = pc.out
		}
	}
	return out, nil
}

func (s stroke) notSeen() error {
	return fmt.Errorf("%s runs round to where it cannot be seen from its own side; make it narrower, or draw it from another side", s.said())
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
	for i := range cuts {
		c := &cuts[i]
		cs, err := c.chains(p.clip(c, b))
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
	if open, holes, err = p.joinRims(b, open, holes); err != nil {
		return nil, nil, err
	}
	if len(open) == 0 {
		return []loop{{parts: []loopPart{{whole: true}}}}, holes, nil
	}
	loops, err = loopsOf(open)
	return loops, holes, err
}

// swallowedBy tells whether a panel that the curve does not cross lies wholly
// inside it.
func (p *rawPanel) swallowedBy(c *cutout) bool {
	for ti, t := range p.surf.T {
		if !c.eye.faces(p.surf.Bent[t[0]], p.surf.normal(ti)) {
			return false
		}
		for _, v := range t {
			if !c.contains(p.surf.Bent[v]) {
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
			return nil, fmt.Errorf("%s and %s run into each other; move them apart", open[e.chain].strokes[0].said(), open[next.chain].strokes[0].said())
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
