package pattern

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"tasset/internal/geom"
)

// rawSpan is a stretch of a raw seam with one part's edge on either side.
type rawSpan struct {
	from, to float64
	sides    []EdgeRef // parts and their edges
}

// matches gathers the spans of every raw seam.
func (a *assembly) matches() {
	a.spans = map[int][]rawSpan{}
	for pi, p := range a.parts {
		for ei, e := range p.edges {
			if e.seam < 0 {
				continue
			}
			a.addSpan(e, EdgeRef{pi, ei})
		}
	}
	for s := range a.spans {
		sort.SliceStable(a.spans[s], func(i, j int) bool { return a.spans[s][i].from < a.spans[s][j].from })
	}
}

func (a *assembly) addSpan(e rawEdge, ref EdgeRef) {
	list := a.spans[e.seam]
	for i := range list {
		if math.Abs(list[i].from-e.from) < geom.Detail && math.Abs(list[i].to-e.to) < geom.Detail {
			list[i].sides = append(list[i].sides, ref)
			return
		}
	}
	a.spans[e.seam] = append(list, rawSpan{from: e.from, to: e.to, sides: []EdgeRef{ref}})
}

// check makes sure that every stretch of a seam has its two sides.
func (a *assembly) check() error {
	for s := range a.blanks.seams {
		for _, sp := range a.spans[s] {
			if len(sp.sides) == 2 {
				continue
			}
			p := a.parts[sp.sides[0].Panel]
			what := "an opening"
			if len(a.openings) > 0 {
				what = fmt.Sprintf("the opening %q", strings.Join(a.openings, "\" or \""))
			}
			if e := p.cutBy(); e != nil {
				what = e.said()
			}
			return fmt.Errorf("beside panel %q %s takes away all of what a %.0f mm long seam edge is joined to; make it smaller, or move it off that seam",
				a.blanks.panels[p.raw].name, what, sp.to-sp.from)
		}
	}
	return nil
}

// numberSeams gives each raw seam its number; images share one.
func (a *assembly) numberSeams() {
	a.class = make([]int, len(a.blanks.seams))
	a.flip = make([]bool, len(a.blanks.seams))
	for i := range a.class {
		a.class[i] = i
	}
	for i, im := range a.images {
		if im.of < 0 {
			continue
		}
		for ei, e := range a.parts[i].edges {
			if e.seam >= 0 {
				kept := a.parts[im.of].edges[im.edge[ei]]
				a.flip[e.seam] = a.class[e.seam] != a.class[kept.seam] && (e.along == kept.along) == im.flipped || a.flip[e.seam]
				a.join(e.seam, kept.seam)
			}
		}
	}
	a.number = map[int]int{}
	for _, p := range a.parts {
		for _, e := range p.edges {
			if e.seam < 0 {
				continue
			}
			if c := a.class[e.seam]; a.number[c] == 0 {
				a.number[c] = len(a.number) + 1
			}
		}
	}
}

func (a *assembly) join(s, t int) {
	from, to := a.class[s], a.class[t]
	for i := range a.class {
		if a.class[i] == from {
			a.class[i] = to
		}
	}
}

// kept is the edge that stands for an edge: itself, or its mirror image's.
func (a *assembly) kept(r EdgeRef) EdgeRef {
	if im := a.images[r.Panel]; im.of >= 0 {
		return EdgeRef{im.of, im.edge[r.Edge]}
	}
	return r
}

// spanOf is the number of the span that an edge belongs to, and the edge on
// the other side.
func (a *assembly) spanOf(ref EdgeRef) (n int, partner EdgeRef) {
	e := a.parts[ref.Panel].edges[ref.Edge]
	for i, sp := range a.spans[e.seam] {
		for k, side := range sp.sides {
			if side == ref {
				return i + 1, sp.sides[1-k]
			}
		}
	}
	return 0, ref
}

// SeamName is what a joined edge's part of its seam is called on every page: 3, and of a
// seam in parts 3, 3b, 3c in their order.
func (e *Edge) SeamName() string {
	if e.Span < 2 {
		return fmt.Sprint(e.Seam)
	}
	return fmt.Sprintf("%d%c", e.Seam, 'a'+e.Span-1)
}
