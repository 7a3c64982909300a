package pattern

import (
	"errors"
	"slices"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// A drawn rim may run across openings, and a drawn seam across both. What is
// taken off is then taken off together: where two curves cross, the cut goes over
// from the one to the other.

// meeting is where the lines of two chains cross.
type meeting struct {
	a, b     int     // chains
	class    [2]int  // of either
	onA, onB float64 // chord and share along each
	p        r2.Vec
	enters   bool // a goes on in what b takes off; else b in what a does
}

// joined joins lines of different classes that cross, and drops what lies in
// what others take off.
func (p *rawPanel) joined(b border, open, holes []chain) (joined, closed []chain, err error) {
	all := append(append([]chain(nil), open...), holes...)
	areas := map[int]area{}
	var classes []int
	for _, c := range all {
		if k := c.strokes[0].class; !slices.Contains(classes, k) {
			classes = append(classes, k)
		}
	}
	if len(classes) == 0 || slices.Max(classes) == 0 {
		return open, holes, nil
	}
	for _, k := range classes {
		if areas[k], err = p.left(open, k, b); err != nil {
			return nil, nil, err
		}
	}
	met := meetings(all)
	var left []section
	for i := range all {
		for _, s := range all[i].sections(met, i) {
			if s.kept(met, areas, classes) {
				left = append(left, s)
			}
		}
	}
	return follow(left)
}

// area is what chains leave of a panel; nil is all of it.
type area [][]r2.Vec

func (p *rawPanel) left(open []chain, class int, b border) (area, error) {
	var own []chain
	for _, c := range open {
		if c.strokes[0].class == class {
			own = append(own, c)
		}
	}
	if len(own) == 0 {
		return nil, nil
	}
	loops, err := loopsOf(own)
	var out area
	for _, l := range loops {
		out = append(out, p.ring(l, b))
	}
	return out, err
}

// has tells whether a section that does not cross the area's border lies in it.
func (a area) has(s *section) bool {
	if a == nil {
		return true
	}
	for _, ring := range a {
		if geom.Inside(ring, geom.Lerp(s.pts[0], s.pts[1], 0.5)) {
			return true
		}
	}
	return false
}

// ring is a loop in the plane.
func (p *rawPanel) ring(l loop, b border) []r2.Vec {
	var out []r2.Vec
	at := func(q place) r2.Vec {
		return geom.Lerp(p.surf.Flat[b.from[q.seg]], p.surf.Flat[b.to[q.seg]], q.t)
	}
	for _, part := range l.parts {
		if part.chain != nil {
			for _, e := range part.chain.edges() {
				out = append(out, e.pts...)
			}
			continue
		}
		out = append(out, at(part.from))
		n := len(b.from)
		steps := part.to.seg - part.from.seg
		if steps < 0 || steps == 0 && part.to.t < part.from.t {
			steps += n
		}
		for k := range steps {
			out = append(out, p.surf.Flat[b.to[(part.from.seg+k)%n]])
		}
		out = append(out, at(part.to))
	}
	return geom.Distinct(out)
}

// line is the chain's one stroke, closed if the chain is.
func (c *chain) line() []r2.Vec {
	pts := c.strokes[0].pts
	if c.closed {
		return append(append([]r2.Vec(nil), pts...), pts[0])
	}
	return pts
}

// meetings are all places where chains of different classes cross.
func meetings(all []chain) []meeting {
	var met []meeting
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			if all[i].strokes[0].class == all[j].strokes[0].class {
				continue
			}
			a, b := all[i].line(), all[j].line()
			for k := 0; k+1 < len(a); k++ {
				for l := 0; l+1 < len(b); l++ {
					if s, t, enters, ok := crossed(a[k], a[k+1], b[l], b[l+1]); ok {
						met = append(met, meeting{i, j, [2]int{all[i].strokes[0].class, all[j].strokes[0].class}, float64(k) + s, float64(l) + t, geom.Lerp(a[k], a[k+1], s), enters})
					}
				}
			}
		}
	}
	return met
}

// crossed gives the shares of two chords at which they cross, and whether the
// first goes over to the left of the second.
func crossed(a, b, c, d r2.Vec) (s, t float64, left, ok bool) {
	ab, cd := r2.Sub(b, a), r2.Sub(d, c)
	det := r2.Cross(cd, ab)
	if det == 0 {
		return 0, 0, false, false
	}
	to := r2.Sub(a, c)
	s, t = -r2.Cross(cd, to)/det, -r2.Cross(ab, to)/det
	return s, t, det > 0, s >= 0 && s < 1 && t >= 0 && t < 1
}

// section is a chain's part between two meetings, or between one and the border.
type section struct {
	stroke
	chain      int
	from, to   int // meetings; -1: the border, or all of a closed chain
	start, end place
}

var errOverlap = errors.New("openings overlap each other where a drawn curve crosses them; move them apart")

// kept tells whether a section lies outside all that other classes take off. By
// the classes that it meets at its ends, its sense there tells; by others, its
// place.
func (s *section) kept(met []meeting, areas map[int]area, classes []int) bool {
	decided := []int{s.class}
	for _, e := range []struct {
		at   int
		goes bool // the section begins there
	}{{s.from, true}, {s.to, false}} {
		if e.at < 0 {
			continue
		}
		m := &met[e.at]
		first := m.a == s.chain
		if (m.enters == first) == e.goes { // what enters is kept up to there, the other from there on
			return false
		}
		other := m.class[0]
		if first {
			other = m.class[1]
		}
		decided = append(decided, other)
	}
	for _, k := range classes {
		if !slices.Contains(decided, k) && !areas[k].has(s) {
			return false
		}
	}
	return true
}

// meetingAt is where along a chain it meets another.
type meetingAt struct {
	at float64
	id int // of the meeting
}

// meetsAt are a chain's meetings in turn along it.
func meetsAt(met []meeting, self int) []meetingAt {
	var out []meetingAt
	for id, m := range met {
		switch self {
		case m.a:
			out = append(out, meetingAt{m.onA, id})
		case m.b:
			out = append(out, meetingAt{m.onB, id})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].at < out[j].at })
	return out
}

// sections cuts a chain where it meets others.
func (c *chain) sections(met []meeting, self int) []section {
	cuts, line := meetsAt(met, self), c.line()
	if len(cuts) == 0 {
		s := section{stroke: c.strokes[0], chain: self, from: -1, to: -1, start: c.start, end: c.end}
		s.pts = line
		return []section{s}
	}
	between := func(a, b float64) []r2.Vec {
		var pts []r2.Vec
		for k := int(a) + 1; float64(k) < b; k++ {
			pts = append(pts, line[k])
		}
		return pts
	}
	var out []section
	put := func(from, to int, pts []r2.Vec) {
		s := section{stroke: c.strokes[0], chain: self, from: from, to: to, start: c.start, end: c.end}
		s.pts = geom.Distinct(pts)
		out = append(out, s)
	}
	first, last := cuts[0], cuts[len(cuts)-1]
	head := append(append([]r2.Vec{line[0]}, between(0, first.at)...), met[first.id].p)
	tail := append(append([]r2.Vec{met[last.id].p}, between(last.at, float64(len(line)-1))...), line[len(line)-1])
	if c.closed {
		put(last.id, first.id, append(tail, head...))
	} else {
		put(-1, first.id, head)
		put(last.id, -1, tail)
	}
	for i := 0; i+1 < len(cuts); i++ {
		pts := append([]r2.Vec{met[cuts[i].id].p}, between(cuts[i].at, cuts[i+1].at)...)
		put(cuts[i].id, cuts[i+1].id, append(pts, met[cuts[i+1].id].p))
	}
	return out
}

// follow joins sections at their meetings.
func follow(sections []section) (open, closed []chain, err error) {
	next := map[int]int{} // meeting → the section that goes on from it
	for i, s := range sections {
		if s.from >= 0 {
			next[s.from] = i
		}
	}
	used := make([]bool, len(sections))
	for i, s := range sections {
		if s.from >= 0 {
			continue
		}
		used[i] = true
		c := chain{strokes: []stroke{s.stroke}, start: s.start, end: s.end}
		for at := s.to; at >= 0; {
			j, ok := next[at]
			if !ok || used[j] {
				return nil, nil, errOverlap
			}
			used[j] = true
			c.strokes = append(c.strokes, sections[j].stroke)
			c.end, at = sections[j].end, sections[j].to
		}
		if first, last := s.pts[0], s.pts[len(s.pts)-1]; len(c.strokes) == 1 && geom.Dist(first, last) < geom.Coincident {
			c.closed, c.strokes[0].pts = true, s.pts[:len(s.pts)-1]
			closed = append(closed, c)
			continue
		}
		open = append(open, c)
	}
	for i := range sections {
		if !used[i] {
			return nil, nil, errOverlap
		}
	}
	return open, closed, nil
}
