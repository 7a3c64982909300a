package pattern

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// perPiece is how many of the panel one piece has.
func (panel *Panel) perPiece(p *Piece) int { return max(panel.Copies/max(p.Copies, 1), 1) }

// end is one part of a fastening where the template asks for it.
type end struct {
	placeOn
	text  string // of its mark
	along r2.Vec // the way of a strap, in the flat panel; zero: not known
	anew  bool   // the panel has its mark already, which is drawn anew
	mark  int    // that one
}

// mark draws the parts of a fastening and notes their places. A strap's keep off
// the rims and off each other.
func (p *Piece) mark(ends []end, f fastened) []anchor {
	var out []anchor
	for len(ends) > 0 {
		n := 1
		if len(ends) > 1 && ends[0].panel == ends[1].panel && ends[0].image == ends[1].image && ends[0].moved == ends[1].moved {
			n = 2
		}
		out = append(out, p.markOn(ends[:n], f)...)
		ends = ends[n:]
	}
	return out
}

// markOn is mark for one end, or for two that mirror each other on one panel.
func (p *Piece) markOn(ends []end, f fastened) []anchor {
	on := &p.Panels[ends[0].panel]
	var patches []patch
	var own []int
	for _, e := range ends {
		patches = append(patches, f.patch(e.q, e.along))
		if e.anew {
			own = append(own, e.mark)
		}
	}
	if f.strapped() {
		settle := on.settle
		if f.face == "inside" && f.kind != "elastic" { // what goes round a foot gives way
			settle = on.settleShort
		}
		patches = settle(patches, on.taken(ends[0].only, own))
	}
	on.Marks = slices.Clone(on.Marks)
	var out []anchor
	for i, e := range ends {
		m := Mark{Kind: "fastening", Text: e.text, Only: e.only, Close: true, Line: around(e.q, f.w, f.h, true)}
		if !e.anew && e.only != "" {
			m.Text += ", " + e.only
		}
		if f.strapped() {
			m.Line, m.Axis = patches[i].outline(), patches[i].axis()
			if m.Text = strings.TrimSuffix(m.Text, riveted); patches[i].long < f.w+patchMargin {
				m.Text += riveted
			}
		}
		if !e.anew {
			e.mark = len(on.Marks)
			on.Marks = append(on.Marks, m)
		}
		on.Marks[e.mark] = m
		out = append(out, anchor{piece: p, panel: e.panel, q: patches[i].at, moved: e.moved, image: e.image, glued: patches[i].long, asked: e.q, mark: e.mark})
	}
	return out
}

// shortest is how long the shortest patch of some ends is, mm.
func shortest(ends []anchor) float64 {
	least := math.Inf(1)
	for _, a := range ends {
		least = min(least, a.glued)
	}
	return least
}

// mostShorter is how often ends are drawn anew for one of them that is shorter: each
// has its own way, which they change.
const mostShorter = 4

// again has ends drawn anew that are marked.
func again(ends []end, marked []anchor) {
	for i, a := range marked {
		ends[i].anew, ends[i].mark, ends[i].text = true, a.mark, a.on().Marks[a.mark].Text
	}
}

// riveted is what the mark of a short patch says, which glue alone does not hold
// (judgement).
const riveted = ", stitch or rivet it too"
