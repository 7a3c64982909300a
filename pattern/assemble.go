package pattern

import (
	"fmt"
	"sort"
	"strings"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// assembly turns trimmed parts into numbered panels whose edges know their
// partners.
type assembly struct {
	blanks *blanks
	parts  []part

	openings []string // names of what is cut out

	foam   foam
	lap    float64
	images []image // of part i: the part that it is like, or the mirror image of
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
			if a.images[i].flipped {
				panels[a.panel[i]].Flipped++
			} else {
				panels[a.panel[i]].alike = append(panels[a.panel[i]].alike, a.images[i].moved)
			}
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

func (a *assembly) finish(p *Panel, part int, panels []Panel) {
	pt := &a.parts[part]
	raw := &a.blanks.panels[pt.raw]
	p.Name, p.Lame, p.Surface, p.Holes = raw.name, raw.lame, raw.surf, pt.holes
	p.holeOf = pt.named
	if p.Flipped > 0 { // it stands for a left and a right one
		p.Name = strings.TrimPrefix(strings.TrimPrefix(p.Name, "left "), "right ")
	}
	if n := a.partOf(part); n > 0 {
		p.Name = fmt.Sprintf("%s, part %d", p.Name, n)
	}
	b := raw.border()
	for ei, e := range pt.edges {
		out := Edge{Kind: e.kind, Line: e.pts, Length: geom.Length(e.pts), Along: e.along, Gap: e.gap, Drawn: e.drawn, Of: e.name}
		if e.seam >= 0 {
			ref := EdgeRef{part, ei}
			n, partner := a.spanOf(ref)
			out.Kind, out.Seam, out.Span = a.blanks.seams[e.seam].kind, a.number[a.class[e.seam]], n
			if a.flip[e.seam] {
				out.Along, out.Span = !out.Along, len(a.spans[e.seam])+1-n
			}
			out.Partner = panels[a.panel[partner.Panel]].Label
			out.Notches = notches(out, e.to-e.from, a.kept(partner) == ref && !a.images[partner.Panel].flipped)
			bevel, along := a.bevel(raw, b, e, partner)
			out.Bevel, out.Beyond = bevel, a.beyond(bevel, along)
			if out.Kind == Closure && !out.Along { // the side of growing angles lies over the other
				out.Allowance = a.lap
			}
		}
		p.Edges = append(p.Edges, out)
	}
	p.cutOut()
	p.Folds = append(foldsOf(raw, p.Outline), raw.creaseFolds(p.Outline)...)
	p.Formed, p.Marks = raw.forming(), raw.heatMarks(p)
	if raw.darted {
		p.Formed.Dart = p.dartSeam()
	}
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
	for s, raw := range a.blanks.seams {
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
