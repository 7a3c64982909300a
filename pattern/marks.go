package pattern

import (
	"fmt"
	"sort"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

// Marks for fastenings lie this far inside the edge that they close (common
// practice, no source).
const fasteningInset = 20.0

// stripInset is how far a strip along a short edge ends inside either end of it, as a
// share of the edge (judgement).
const stripInset = 0.15

// longestMark is how far a mark at a gap goes into the panel at most, mm: the end of
// a strap as wide as any.
const longestMark = 80.0

// addMarks draws the fastenings at the edges where the piece opens. The two
// parts of one have the same number, counted from below.
func (b *builder) addMarks(p *Piece) error {
	e := evaluator{env: b.env}
	lapped := p.lapped()
	for _, f := range b.template.Fastenings {
		if !f.AtGap || !e.on(f.When) {
			continue
		}
		each := e.fastened(f, 0)
		var sides [2][]gapMark
		for i := range p.Panels {
			panel := &p.Panels[i]
			for _, edge := range panel.opens() {
				from, to := panel.Surface.Lift(edge.Line[0]).Y, panel.Surface.Lift(edge.Line[len(edge.Line)-1]).Y
				side := 0
				if from > to {
					side = 1
				}
				at := b.fasteningsOn(&e, f, panel, edge)
				long := e.num(f.Length)
				if each.strapped() { // an anchor patch
					long = each.h
				}
				marks := fasteningMarks(f, edge, lapped, at, each.w, long, p.Units)
				if panel.tailed(edge) && each.kind == "hook-and-loop" {
					marks = onEitherCopy(f, edge, marks, each.w, long, p.Units)
				}
				for _, m := range marks {
					of := side
					if m.Only == onTheFlipped {
						of = 1 - side
					}
					sides[of] = append(sides[of], gapMark{i, m, panel.Surface.Lift(geom.Centroid(m.Line)).Y})
				}
			}
		}
		b.joinAtGap(p, each, sides)
	}
	p.oneTail()
	return e.err
}

// oneTailOnly is what it says.
const oneTailOnly = "this end only on the copy not turned over: it lies outside; cut the other at the line"

// oneTail says of a panel that is cut twice, and whose copies meet where the piece
// opens, that only one of them keeps what laps over the other.
func (p *Piece) oneTail() {
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, e := range panel.Edges {
			if panel.tailed(e) {
				middle := geom.At(geom.OffsetLine(e.Line, e.Allowance/2), e.Length/2)
				panel.Marks = append(panel.Marks, Mark{Kind: "text", Line: around(middle, 2*markSize, 0, false), Text: oneTailOnly})
			}
		}
	}
}

// tailed tells whether an edge laps over its own mirror image.
func (p *Panel) tailed(e Edge) bool {
	return e.Kind == Closure && e.Allowance > 0 && p.Flipped > 0 && e.Partner == p.Label
}

// onEitherCopy are the marks of hook-and-loop where one copy laps over the other: of
// the loops on the lap of the one, and of the hooks below it on the other.
func onEitherCopy(f template.Fastening, e Edge, loops []Mark, width, length float64, u units.Unit) []Mark {
	e.Allowance = 0
	hooks := fasteningMarks(f, e, true, nil, width, length, u)
	for i := range loops {
		loops[i].Only = onTheOther
		loops[i].Text += ", " + onTheOther
	}
	for i := range hooks {
		hooks[i].Only = onTheFlipped
		hooks[i].Text += ", " + onTheFlipped
	}
	return append(loops, hooks...)
}

// gapMark is the mark of one part of a fastening at a gap.
type gapMark struct {
	panel int
	mark  Mark
	level float64
}

// joinAtGap numbers the parts at the gap's two sides from below, draws them, and
// measures the straps between them.
func (b *builder) joinAtGap(p *Piece, each fastened, sides [2][]gapMark) {
	var at [2][]anchor
	for side, marks := range sides {
		sort.SliceStable(marks, func(i, j int) bool { return marks[i].level < marks[j].level })
		for n, m := range marks {
			each.number = p.stands.count + n + 1
			one, other := each.ends()
			switch {
			case len(sides[1-side]) == 0 && b.template.Mirror && p.Panels[m.panel].Flipped > 0:
				one = each.onBothCopies()
			case side == 1:
				one = other
			}
			if each.strapped() {
				l := m.mark.Line
				in := p.Panels[m.panel].slid(each.patch(geom.Centroid(l), r2.Unit(r2.Sub(l[1], l[2]))))
				m.mark.Line, m.mark.Axis = in.outline(), in.axis()
			}
			if !strings.HasPrefix(each.kind, "hook") {
				m.mark.Text = one
			}
			p.Panels[m.panel].Marks = append(p.Panels[m.panel].Marks, m.mark)
			at[side] = append(at[side], anchor{piece: p, panel: m.panel, q: geom.Centroid(m.mark.Line)})
		}
	}
	for side := range at { // of a piece cut as one half, the other edge is the image
		if len(at[side]) == 0 && b.template.Mirror {
			for _, a := range at[1-side] {
				a.image = true
				at[side] = append(at[side], a)
			}
		}
	}
	for n := range min(len(at[0]), len(at[1])) {
		each.number = p.stands.count + n + 1
		if each.strapped() {
			p.strap(each, 1, at[0][n], at[1][n], pathOver(at[0][n], at[1][n], b.inPlace(b.stand.frame.Point)))
		}
	}
	p.stands.count += max(len(at[0]), len(at[1]))
}

// fasteningsOn are shares of an edge at which fastenings sit: at the levels
// that the template names, or evenly.
func (b *builder) fasteningsOn(e *evaluator, f template.Fastening, p *Panel, edge Edge) []float64 {
	var out []float64
	for _, l := range f.Levels {
		level := e.num(l)
		from, to := p.Surface.Lift(edge.Line[0]).Y, p.Surface.Lift(edge.Line[len(edge.Line)-1]).Y
		if t := (level - from) / (to - from); t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	if len(f.Levels) > 0 {
		return out
	}
	n := 2
	if f.Count.Set() {
		n = max(int(e.num(f.Count)), 1)
	}
	for i := range n {
		out = append(out, (float64(i)+0.5)/float64(n))
	}
	return out
}

// opens are the upright edges where the panel's piece opens.
func (p *Panel) opens() []Edge {
	var out []Edge
	for _, e := range p.Edges {
		if e.Kind == Closure || e.Gap {
			out = append(out, e)
		}
	}
	return out
}

// lapped tells whether one edge lies over the other where the piece closes.
func (p *Piece) lapped() bool {
	for i := range p.Panels {
		for _, e := range p.Panels[i].opens() {
			if e.Allowance > 0 {
				return true
			}
		}
	}
	return false
}

// fasteningMarks draws one fastening at an edge. Hook-and-loop of a piece that
// laps sits on the lap's inner face and on the outer face that the lap covers,
// so that the two strips meet; the loops, which are soft, lie towards the wearer
// when it is open (judgement).
func fasteningMarks(f template.Fastening, e Edge, lapped bool, at []float64, width, length float64, u units.Unit) []Mark {
	if width == 0 {
		width = 25
	}
	if length == 0 || length > longestMark {
		length = 50
	}
	name := f.Name
	if name == "" {
		name = f.Kind
	}
	cum := geom.Lengths(e.Line)
	total := cum[len(cum)-1]
	var out []Mark
	if strings.HasPrefix(f.Kind, "hook") { // one strip along the edge
		length, at = width, []float64{0.5}
		width = total - 2*min(fasteningInset, stripInset*total)
		name = fmt.Sprintf("%s, %s wide", name, units.Format(length, u))
		switch {
		case e.Allowance > 0:
			name += ", on the inside: loops"
		case lapped:
			name += ", on the outside: hooks"
		}
	}
	for _, t := range at {
		if room := (width/2 + 5) / total; room < 0.5 { // off the rims
			t = min(max(t, room), 1-room)
		}
		d := headingAt(e.Line, cum, t*total)
		in := quarterTurn(d)
		if strings.HasPrefix(f.Kind, "hook") && e.Allowance > 0 {
			in = r2.Scale(-1, in)
		}
		c := r2.Add(geom.AtLength(e.Line, cum, t*total), r2.Scale(6, in))
		if !strings.HasPrefix(f.Kind, "hook") {
			c = r2.Add(c, r2.Scale(insetOf(f, width)-6, in))
		}
		h := r2.Scale(width/2, d)
		l := r2.Scale(length, in)
		out = append(out, Mark{Kind: "fastening", Text: name, Close: true,
			Line: []r2.Vec{r2.Sub(c, h), r2.Add(c, h), r2.Add(r2.Add(c, h), l), r2.Add(r2.Sub(c, h), l)}})
	}
	return out
}

// strapPlay is what a strap's anchors stand further apart for that it runs straight
// between them, and the foam round the body, mm (judgement).
const strapPlay = 2.0

// insetOf is how far a mark lies inside the edge that it closes: two ends of a strap
// leave room between them for its buckle.
func insetOf(f template.Fastening, width float64) float64 {
	if f.Kind == "strap and buckle" {
		return max(fasteningInset, buckleRoom*width/2+strapPlay)
	}
	return fasteningInset
}

// slid moves a patch at a gap along the edge, by the least that leaves most of it on
// the foam.
func (p *Panel) slid(t patch) patch {
	cover := p.cover()
	best, most := t, cover.under(t)
	for k := patchStep; most < 1 && k <= farthestPatch/2; k += patchStep {
		for _, by := range []float64{k, -k} {
			c := t
			c.at = r2.Add(t.at, r2.Scale(by, quarterTurn(t.along)))
			if on := cover.under(c); on > most {
				best, most = c, on
			}
		}
	}
	return best
}
