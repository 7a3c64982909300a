package pattern

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// uneven is a part with five sides of different lengths, all of them free.
func uneven() part {
	return ringPart([]r2.Vec{{}, {X: 90}, {X: 120, Y: 50}, {X: 60, Y: 110}, {X: -10, Y: 70}})
}

func ringPart(ring []r2.Vec) (p part) {
	for i, a := range ring {
		p.edges = append(p.edges, rawEdge{seam: atRim, pts: []r2.Vec{a, ring[(i+1)%len(ring)]}})
	}
	return p
}

// seenFrom is a part whose corners are moved one by one, and that begins at
// another edge.
func (p *part) seenFrom(first int, move func(r2.Vec) r2.Vec) (out part) {
	for i := range p.edges {
		e := p.edges[(i+first)%len(p.edges)]
		e.pts = []r2.Vec{move(e.pts[0]), move(e.pts[1])}
		out.edges = append(out.edges, e)
	}
	return out
}

func turnedAndMoved(q r2.Vec) r2.Vec {
	return r2.Add(r2.Rotate(q, 2.2, r2.Vec{}), r2.Vec{X: 300, Y: -40})
}

// A part is alike to one that was turned, moved and begun elsewhere, edge by edge.
func TestAlike_turnedAndMoved(t *testing.T) {
	q := uneven()
	for first := range q.edges {
		p := q.seenFrom(first, turnedAndMoved)
		edges, ok := alike(&p, &q)
		if !ok {
			t.Errorf("begun at edge %d it is not found to be alike", first)
			continue
		}
		for i, e := range edges {
			if e != (i+first)%len(q.edges) {
				t.Errorf("begun at edge %d, its edge %d lies on edge %d", first, i, e)
			}
		}
	}
}

// What differs by more than a knife follows, or in what becomes of an edge, is not
// alike; nor is a mirror image.
func TestAlike_not(t *testing.T) {
	q := uneven()
	same := func(v r2.Vec) r2.Vec { return v }
	for what, p := range map[string]part{
		"a mirror image":            ringPart(mirroredRing(&q)),
		"one corner 0.05 mm away":   q.seenFrom(0, func(v r2.Vec) r2.Vec { return r2.Vec{X: v.X + 0.05*boolAsNumber(v.X == 120), Y: v.Y} }),
		"a seam in place of a rim":  withEdge(q.seenFrom(0, same), func(e *rawEdge) { e.seam = 3 }),
		"a closure":                 withEdge(q.seenFrom(0, same), func(e *rawEdge) { e.kind = Closure }),
		"a rim at the gap":          withEdge(q.seenFrom(0, same), func(e *rawEdge) { e.gap = true }),
		"a hole":                    {edges: q.edges, holes: [][]r2.Vec{{{X: 1}}}},
		"a corner less":             ringPart([]r2.Vec{{}, {X: 90}, {X: 120, Y: 50}, {X: 60, Y: 110}}),
		"larger by one in thousand": q.seenFrom(0, func(v r2.Vec) r2.Vec { return r2.Scale(1.001, v) }),
	} {
		if _, ok := alike(&p, &q); ok {
			t.Errorf("%s is taken for alike", what)
		}
	}
}

func boolAsNumber(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func withEdge(p part, change func(*rawEdge)) part {
	change(&p.edges[2])
	return p
}

// mirroredRing are the corners of a part's mirror image, counter-clockwise again.
func mirroredRing(p *part) (ring []r2.Vec) {
	for i := range p.edges {
		q := p.edges[len(p.edges)-1-i].pts[1]
		ring = append(ring, r2.Vec{X: -q.X, Y: q.Y})
	}
	return ring
}

// A part's mirror image is found about the upright, each edge the image of one.
func TestMirrorMatch(t *testing.T) {
	q := uneven()
	p := ringPart(mirroredRing(&q))
	edges, ok := mirrorMatch(&p, &q)
	if !ok {
		t.Fatal("the mirror image is not found to be one")
	}
	for i, e := range edges {
		if e != len(q.edges)-1-i {
			t.Errorf("edge %d is the image of edge %d", i, e)
		}
	}
	if _, ok := mirrorMatch(&q, &q); ok {
		t.Error("an uneven part is taken for its own mirror image")
	}
	for i := range p.edges {
		p.edges[i].pts = []r2.Vec{turnedAndMoved(p.edges[i].pts[0]), turnedAndMoved(p.edges[i].pts[1])}
	}
	if _, ok := mirrorMatch(&p, &q); ok {
		t.Error("a mirror image that is turned is taken for one as it stands")
	}
}

// The motion from points to moved points is the one that moved them.
func TestOnto_findsTheMotion(t *testing.T) {
	from := []r3.Vec{{X: 10, Y: 20, Z: 5}, {X: 80, Y: 25, Z: 9}, {X: 40, Y: 90, Z: -12}, {X: 11, Y: 60, Z: 30}}
	s, c := math.Sincos(0.7)
	want := geom.Frame{O: r3.Vec{X: 7, Y: -60, Z: 100}, X: r3.Vec{X: c, Z: -s}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: s, Z: c}}
	var at []r3.Vec
	for _, p := range from {
		at = append(at, want.Point(p))
	}
	got := onto(triad(from), triad(at))
	for i, p := range from {
		if d := geom.Dist(got.Point(p), at[i]); d > 1e-9 {
			t.Errorf("point %d comes %g mm away from its place", i, d)
		}
	}
}

// ringOfAlike is a ring of parts that one template serves, each joined to the next.
func ringOfAlike(n int) *assembly {
	a := &assembly{spans: map[int][]rawSpan{}}
	for i := range n {
		a.parts = append(a.parts, part{edges: []rawEdge{{seam: (i + n - 1) % n}, {seam: i}}})
		a.images = append(a.images, image{of: 0, edge: []int{0, 1}})
		a.spans[i] = []rawSpan{{sides: []EdgeRef{{i, 1}, {(i + 1) % n, 0}}}}
	}
	a.images[0] = image{of: -1}
	return a
}

// Of a ring of parts that are all alike one template says rightly what each edge
// meets. Once one of them is not, its neighbours meet another panel than the rest
// do, and theirs: none is left that may share a template.
func TestUnlikeNeighbours(t *testing.T) {
	a := ringOfAlike(5)
	if a.unlikeNeighbours() {
		t.Error("parts that all meet each other have unlike neighbours")
	}
	a.images[2] = image{of: -1}
	rounds := 0
	for a.unlikeNeighbours() {
		if rounds++; rounds > 10 {
			t.Fatal("it goes on for ever")
		}
	}
	for i, im := range a.images {
		if im.of >= 0 {
			t.Errorf("part %d shares the template of part %d, whose neighbours are others", i, im.of)
		}
	}
}
