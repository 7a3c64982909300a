package booklet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// joining is the order in which to join a piece's seams: the part grows from
// its first panel, and a seam whose two sides are both on it is closed before
// another panel is added, so that no corner is left to be forced shut.
// Closures come last. (Common practice, no source.)
func joining(p *pattern.Piece) []int {
	joined := map[int]bool{}
	var order []int
	for len(order) < len(p.Seams) {
		best, rank := -1, 0
		for i := range p.Seams {
			if slices.Contains(order, i) {
				continue
			}
			if r := urgency(&p.Seams[i], joined); best < 0 || r < rank {
				best, rank = i, r
			}
		}
		order = append(order, best)
		for _, panel := range panelsAt(&p.Seams[best]) {
			joined[panel] = true
		}
	}
	return order
}

// urgency is lower for a seam that should be joined earlier.
func urgency(s *pattern.Seam, joined map[int]bool) int {
	switch s.Kind {
	case pattern.ClothHinge:
		return 3
	case pattern.Closure:
		return 4
	}
	panels := panelsAt(s)
	on := 0
	for _, panel := range panels {
		if joined[panel] {
			on++
		}
	}
	switch {
	case len(panels) > 0 && on == len(panels):
		return 0
	case on > 0:
		return 1
	}
	return 2
}

// panelsAt lists the panels on a seam, each once.
func panelsAt(s *pattern.Seam) []int {
	var out []int
	for _, sp := range s.Spans {
		for _, side := range sp.Sides {
			if !slices.Contains(out, side.Panel) {
				out = append(out, side.Panel)
			}
		}
	}
	return out
}

func seamsOf(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, i := range joining(p) {
		s := &p.Seams[i]
		out = append(out, entry{fmt.Sprintf("seam %d:", s.Number), seamText(p, s, u)})
	}
	if len(out) > 0 && !p.MockUp {
		out = append(out, boxNotes(p)...)
		out = append(out, entry{text: "Bevels are told from a square cut. Inside: the inner face is cut back; outside: the outer face is. " + traced(p)})
	}
	return out
}

// traced says which line is cut. Flat parts that meet edge to edge are always drawn by
// their outer faces.
func traced(p *pattern.Piece) string {
	said := tracedNote[p.Traced]
	if slices.ContainsFunc(p.Panels, changes) {
		said += " Where a bevel changes along an edge, it is steepest where the two lines are farthest apart."
	}
	if p.Traced != pattern.Outer && len(boxesOf(p)) > 0 {
		said += " Of the flat parts that meet edge to edge, it is where their outside ends all the same."
	}
	return said
}

// changes tells whether a bevel of the panel changes along an edge, and the line to cut
// with it.
func changes(p pattern.Panel) bool {
	return slices.ContainsFunc(p.Edges, func(e pattern.Edge) bool { return e.Beyond != nil && !e.Bevel.Even() })
}

// tracedNote is which line is cut, by the face that it is at.
var tracedNote = [...]string{
	pattern.Middle: "The line to cut is where the neutral line of the foam ends: the outside of an edge with a bevel inside stands farther out than it.",
	pattern.Outer:  "The line to cut is where the outside of the foam ends: slope the edge from there. A dash-dotted seam line beside it is where the neutral line of the foam ends.",
	pattern.Inner:  "The line to cut is where the inside of the foam ends: slope the edge from there. A dash-dotted seam line beside it is where the neutral line of the foam ends.",
}

// seamText is a seam in words: "V1 to V2, 231 mm, butt, bevel 12° inside". Of
// a seam in several spans, each has its length.
func seamText(p *pattern.Piece, s *pattern.Seam, u units.Unit) string {
	var spans []string
	var each []float64
	for _, sp := range s.Spans {
		each = append(each, sp.To-sp.From)
	}
	lengths := units.Parts(each, u)
	for i, sp := range s.Spans {
		length := lengths[i]
		if i > 0 && sidesText(p, sp.Sides) == sidesText(p, s.Spans[i-1].Sides) {
			spans[len(spans)-1] += " + " + length
			continue
		}
		spans = append(spans, sidesText(p, sp.Sides)+", "+length)
	}
	said := strings.Join(spans, "; ") + ", " + s.Kind.String() + overText(p, s, u)
	if b := bevelText(p, s); b != "" {
		said += ", " + b
	}
	return said
}

// overText tells of a seam that laps over its own mirror image which of both copies
// lies outside, and how far.
func overText(p *pattern.Piece, s *pattern.Seam, u units.Unit) string {
	for _, sp := range s.Spans {
		a := p.Panels[sp.Sides[0].Panel].Edges[sp.Sides[0].Edge]
		if sp.Sides[0] == sp.Sides[1] && a.Allowance > 0 {
			return fmt.Sprintf(": the copy not turned over lies over the other by %s", units.Format(a.Allowance, u))
		}
	}
	return ""
}

func sidesText(p *pattern.Piece, sides [2]pattern.EdgeRef) string {
	a, b := p.Panels[sides[0].Panel].Label, p.Panels[sides[1].Panel].Label
	if a != b {
		return a + " to " + b
	}
	panel := &p.Panels[sides[0].Panel]
	if to := p.ToItself(panel, panel.Edges[sides[0].Edge]); to != "" {
		return a + " to " + to
	}
	return a + " to its mirror image"
}

// bevelText is how the edges of a seam are cut off square, of each span as its panels
// say it where that differs. Laps are not bevelled.
func bevelText(p *pattern.Piece, s *pattern.Seam) string {
	if p.MockUp || s.Kind == pattern.Lap || s.Kind == pattern.Closure || len(s.Spans) == 0 {
		return ""
	}
	var said []string // in turn
	spans := map[string][]string{}
	whole := pattern.Bevel{Min: math.Inf(1)}
	oneWay := true
	for i, sp := range s.Spans {
		b := p.Panels[sp.Sides[0].Panel].Edges[sp.Sides[0].Edge].Bevel
		text := cutText(b)
		if spans[text] == nil {
			said = append(said, text)
		}
		spans[text] = append(spans[text], spanName(s.Number, i))
		oneWay = oneWay && (i == 0 || b.Undercut == whole.Undercut)
		whole = pattern.Bevel{Min: min(whole.Min, b.Min), Max: max(whole.Max, b.Max), Undercut: b.Undercut}
	}
	if len(said) == 1 {
		return said[0]
	}
	if oneWay && whole.Even() {
		return cutText(whole)
	}
	for i, text := range said {
		said[i] = strings.Join(spans[text], " and ") + " " + text
	}
	return strings.Join(said, ", ")
}

// spanName is what panels call a span of a seam: 3, 3b …
func spanName(seam, i int) string {
	if i == 0 {
		return fmt.Sprint(seam)
	}
	return fmt.Sprintf("%d%c", seam, 'a'+i)
}

func cutText(b pattern.Bevel) string {
	side := "outside"
	if b.Undercut {
		side = "inside"
	}
	switch {
	case b.Max < pattern.SquareBelow:
		return "square cut"
	case b.Even():
		return fmt.Sprintf("bevel %.0f° %s", units.Deg(b.Middle()), side)
	}
	return fmt.Sprintf("bevel %.0f° to %.0f° %s", units.Deg(b.Min), units.Deg(b.Max), side)
}
