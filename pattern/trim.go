package pattern

import (
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
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
	lost       [2]bool // the line begins, or ends, inside the panel: it cannot be seen beyond
}

// stroke is a stretch of one cutout's curve.
type stroke struct {
	kind  cutKind
	class int // strokes of one class never run into each other
	name  string
	pts   []r2.Vec
	bent  []r3.Vec // of a whole seam
	seam  *split
}

// said is what the maker calls the curve.
func (s stroke) said() string {
	return fmt.Sprintf("the %s %q", [...]string{"opening", "drawn edge", "drawn seam"}[s.kind], s.name)
}

// chains joins pieces that follow each other into stretches of the cutout's
// curve inside the panel.
func (c *cutout) chains(pieces []piece) ([]chain, error) {
	n, segs := len(pieces), len(c.curve)
	of := stroke{kind: c.kind, name: c.name}
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
			begun := of
			begun.pts, begun.bent = []r2.Vec{pc.p0}, []r3.Vec{pc.b0}
			out = append(out, chain{start: pc.in, strokes: []stroke{begun}, lost: [2]bool{!pc.inB, false}})
		}
		ch := &out[len(out)-1]
		ch.strokes[0].add(&pc)
		if i == n-1 || !follows(pc, pieces[(first+i+1)%n], segs) {
			ch.end, ch.lost[1] = pc.out, !pc.outB
			if c.kind == opens || ch.lost == [2]bool{} {
				continue
			}
			if err := of.mayEnd(ch.strokes[0].pts); err != nil {
				return nil, err
			}
			out = out[:len(out)-1] // the end that runs over an edge
		}
	}
	return out, nil
}

// mayEnd is an error where a line of the stroke's that ends inside a panel is more than
// the end of a drawn seam that runs over an edge.
func (s stroke) mayEnd(line []r2.Vec) error {
	if s.kind != splits {
		return s.notSeen()
	}
	if l := geom.Length(line); l > seamEnd+seamSlip {
		return fmt.Errorf("%s ends inside a panel, or runs round to where it cannot be seen, %.0f mm from the panel's edge; draw it from edge to edge over panels that are seen whole", s.said(), l)
	}
	return nil
}

func (s *stroke) add(pc *piece) {
	if last := s.pts[len(s.pts)-1]; r2.Norm(r2.Sub(last, pc.p0)) > geom.Coincident {
		s.pts, s.bent = append(s.pts, pc.p0), append(s.bent, pc.b0) // over the groove of a fold
	}
	s.pts, s.bent = append(s.pts, pc.p1), append(s.bent, pc.b1)
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

// cuts are the lines along which a panel is cut.
type cutLines struct {
	open, closed, seams []chain
	gone                bool // nothing of the panel is left
}

func (p *rawPanel) cutLines(cuts []cutout, b border) (l cutLines, err error) {
	for i := range cuts {
		c := &cuts[i]
		if c.bandsOnly && p.lame > 0 {
			continue
		}
		cs, err := c.chains(p.clip(c, b))
		if err != nil {
			return l, err
		}
		for _, ch := range cs {
			if ch.lost != [2]bool{} {
				if err := p.carryOn(&ch, b); err != nil {
					return l, err
				}
			}
			if c.kind != opens {
				ch.strokes[0].class = i + 1
			}
			switch {
			case c.kind == splits && ch.closed:
				return l, fmt.Errorf("%s runs round inside one panel; draw it from edge to edge", ch.strokes[0].said())
			case c.kind == splits:
				l.seams = append(l.seams, ch)
			case ch.closed:
				l.closed = append(l.closed, ch)
			default:
				l.open = append(l.open, ch)
			}
		}
		if len(cs) == 0 && c.kind != splits && p.swallowedBy(c) {
			return cutLines{gone: true}, nil
		}
	}
	return l, l.overlap()
}

// trim cuts a panel. What is left may be several parts, or nothing; holes lie
// inside the parts.
func (p *rawPanel) trim(b border, open, closed []chain) (loops []loop, holes []chain, err error) {
	was := len(open)
	if open, holes, err = p.joined(b, open, closed); err != nil {
		return nil, nil, err
	}
	switch {
	case len(open) > 0:
		loops, err = loopsOf(open)
	case was == 0:
		loops = []loop{{parts: []loopPart{{whole: true}}}}
	}
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
