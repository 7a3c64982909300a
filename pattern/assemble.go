package pattern

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// assembly turns trimmed parts into numbered panels whose edges know their
// partners.
type assembly struct {
	cutter *cutter
	parts  []part

	openings []string // names of what is cut out

	foam   foam
	lap    float64
	images []image // of part i: the part that it is the mirror image of
	class  []int   // of raw seam i: the seam whose number it takes
	flip   []bool  // raw seam i runs against the image of that seam
	number map[int]int
	spans  map[int][]rawSpan
	panel  []int // of part i
}

// foam is what a panel is cut from.
type foam struct {
	thickness, k float64
	traced       Face
	code         string
}

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
	for s := range a.cutter.seams {
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
				a.cutter.panels[p.raw].name, what, sp.to-sp.from)
		}
	}
	return nil
}

// assemble numbers panels and seams and finishes the panels.
func (a *assembly) assemble() ([]Panel, []Seam, error) {
	a.matches()
	if err := a.check(); err != nil {
		return nil, nil, err
	}
	a.findImages()
	a.numberSeams()
	a.panel = make([]int, len(a.parts))
	var panels []Panel
	for i := range a.parts {
		if a.images[i].of >= 0 {
			a.panel[i] = a.panel[a.images[i].of]
			panels[a.panel[i]].Copies++
			panels[a.panel[i]].Flipped++
			continue
		}
		a.panel[i] = len(panels)
		panels = append(panels, Panel{Number: len(panels) + 1, Label: fmt.Sprintf("%s%d", a.foam.code, len(panels)+1), Copies: 1})
	}
	for i := range a.parts {
		if a.images[i].of < 0 {
			a.finish(&panels[a.panel[i]], i, panels)
		}
	}
	return panels, a.finishedSeams(), nil
}

// numberSeams gives each raw seam its number; mirror images share one.
func (a *assembly) numberSeams() {
	a.class = make([]int, len(a.cutter.seams))
	a.flip = make([]bool, len(a.cutter.seams))
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
				a.flip[e.seam] = a.class[e.seam] != a.class[kept.seam] && e.along == kept.along || a.flip[e.seam]
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

func (a *assembly) finish(p *Panel, part int, panels []Panel) {
	pt := &a.parts[part]
	raw := &a.cutter.panels[pt.raw]
	p.Name, p.Surface, p.Holes = raw.name, raw.surf, pt.holes
	if p.Copies > 1 { // it stands for a left and a right one
		p.Name = strings.TrimPrefix(strings.TrimPrefix(p.Name, "left "), "right ")
	}
	if n := a.partOf(part); n > 0 {
		p.Name = fmt.Sprintf("%s, part %d", p.Name, n)
	}
	b := raw.border()
	for ei, e := range pt.edges {
		out := Edge{Kind: e.kind, Line: e.pts, Length: geom.Length(e.pts), Along: e.along, Gap: e.gap, Drawn: e.drawn}
		if e.seam >= 0 {
			ref := EdgeRef{part, ei}
			n, partner := a.spanOf(ref)
			out.Kind, out.Seam, out.Span = a.cutter.seams[e.seam].kind, a.number[a.class[e.seam]], n
			if a.flip[e.seam] {
				out.Along, out.Span = !out.Along, len(a.spans[e.seam])+1-n
			}
			out.Partner = panels[a.panel[partner.Panel]].Label
			out.Notches = notches(out, e.to-e.from)
			out.Bevel = a.bevel(raw, b, e, partner)
			out.Face = a.faceLine(out)
			if out.Kind == Closure && !out.Along { // the side of growing angles lies over the other
				out.Allowance = a.lap
			}
		}
		p.Edges = append(p.Edges, out)
	}
	p.Outline = outlineOf(p.Edges)
	p.Folds = foldsOf(raw, p.Outline)
	p.Up = r2.Vec{Y: 1}
}

// partOf counts the parts into which drawn seams cut a panel; 0 where none does.
func (a *assembly) partOf(part int) int {
	cut, n := false, 0
	for i := range a.parts[:part+1] {
		if a.parts[i].raw == a.parts[part].raw {
			n++
		}
	}
	for _, e := range a.parts[part].edges {
		cut = cut || e.side < 0 && e.seam >= 0
	}
	if !cut {
		return 0
	}
	return n
}

// foldsOf draws a raw panel's folds through their hinges, as far as they lie
// in the trimmed outline.
func foldsOf(raw *rawPanel, outline []r2.Vec) []Fold {
	var out []Fold
	for _, f := range raw.folds {
		mid := func(i int) r2.Vec {
			return geom.Lerp(raw.surf.Flat[f.left[i]], raw.surf.Flat[f.right[i]], 0.5)
		}
		for _, line := range geom.ClipLine(mid(0), mid(1), outline) {
			out = append(out, Fold{Line: line[:], Kind: f.kind, Angle: f.angle})
		}
	}
	return out
}

func (a *assembly) finishedSeams() []Seam {
	var out []Seam
	for s, raw := range a.cutter.seams {
		if a.class[s] != s || len(a.spans[s]) == 0 {
			continue
		}
		seam := Seam{Number: a.number[s], Kind: raw.kind, Line: raw.line, Length: geom.Length(raw.line)}
		for _, sp := range a.spans[s] {
			x := Span{From: sp.from, To: sp.to}
			for k, side := range sp.sides {
				r := a.kept(side)
				x.Sides[k] = EdgeRef{a.panel[r.Panel], r.Edge}
			}
			seam.Spans = append(seam.Spans, x)
		}
		out = append(out, seam)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Number < out[j].Number })
	return out
}

// notchSpacing is the aim for the distance of registration marks (common
// practice, no source: every 50 to 80 mm). Shorter edges than shortEdge have
// their ends to be matched by.
const (
	notchSpacing = 65.0
	shortEdge    = 25.0
)

// notches are counted from the start of the span in the seam's own direction,
// on both sides alike.
func notches(e Edge, length float64) []Notch {
	if length < shortEdge {
		return nil
	}
	n := max(int(math.Round(length/notchSpacing)), 1)
	cum := geom.Lengths(e.Line)
	total := cum[len(cum)-1]
	var out []Notch
	for i := 1; i <= n; i++ {
		at := length * float64(i) / float64(n+1)
		s := at * total / length
		if !e.Along {
			s = total - s
		}
		seg, _ := geom.Locate(cum, s)
		seg = min(seg, len(e.Line)-2)
		d := r2.Unit(r2.Sub(e.Line[seg+1], e.Line[seg]))
		out = append(out, Notch{At: at, P: geom.AtLength(e.Line, cum, s), In: quarterTurn(d), Rank: i})
	}
	return out
}

// bevel is half the angle between the panels on either side of an edge, where
// each must be cut off square for them to close.
func (a *assembly) bevel(raw *rawPanel, b border, e rawEdge, partner EdgeRef) Bevel {
	other := &a.cutter.panels[a.parts[partner.Panel].raw]
	ob := other.border()
	at, mine := raw.normalsAlong(b, e)
	oat, theirs := other.normalsAlong(ob, a.parts[partner.Panel].edges[partner.Edge])
	out := Bevel{Min: math.Inf(1)}
	convex := 0.0
	for i, n := range mine {
		j := nearest(oat, at[i])
		if j < 0 {
			continue
		}
		half := foldAngle(n, theirs[j]) / 2
		out.Min, out.Max = min(out.Min, half), max(out.Max, half)
		seg := e.segs[min(i, len(e.segs)-1)]
		dir := r3.Sub(raw.surf.Bent[b.to[seg]], raw.surf.Bent[b.from[seg]])
		convex += r3.Dot(theirs[j], r3.Cross(dir, n))
	}
	if math.IsInf(out.Min, 1) {
		return Bevel{}
	}
	out.Undercut = convex >= 0
	return out
}

func nearest(at []float64, x float64) int {
	best, d := -1, math.Inf(1)
	for i, v := range at {
		if math.Abs(v-x) < d {
			best, d = i, math.Abs(v-x)
		}
	}
	return best
}

// faceLine is where the traced face is cut, if that is not the seam line: the
// outer face of a bevelled joint reaches (1-k)·t·tan(fold/2) beyond the neutral
// line, the inner face stops k·t·tan(fold/2) short of it.
// Source: the mitre setback t·tan(fold/2) of two plates.
func (a *assembly) faceLine(e Edge) []r2.Vec {
	f := a.foam
	half := (e.Bevel.Min + e.Bevel.Max) / 2
	d := 0.0
	switch f.traced {
	case Outer:
		d = (1 - f.k) * f.thickness * math.Tan(half)
	case Inner:
		d = -f.k * f.thickness * math.Tan(half)
	}
	if !e.Bevel.Undercut {
		d = -d
	}
	if math.Abs(d) < geom.Detail {
		return nil
	}
	return geom.OffsetLine(e.Line, d)
}

// outlineOf is the line to cut: the edges in turn, with the allowance of those
// that have one as a flap outside them.
func outlineOf(edges []Edge) []r2.Vec {
	var out []r2.Vec
	for _, e := range edges {
		if e.Allowance == 0 {
			out = append(out, e.Line[:len(e.Line)-1]...)
			continue
		}
		n := len(e.Line)
		flap := geom.OffsetLine(e.Line, e.Allowance)
		mitre := min(e.Allowance, e.Length/4) / 2
		cum := geom.Lengths(flap)
		out = append(out, e.Line[0])
		out = append(out, geom.Between(flap, mitre, cum[n-1]-mitre)...)
	}
	return geom.Distinct(out)
}
