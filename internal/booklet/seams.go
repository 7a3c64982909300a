package booklet

import (
	"fmt"
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

// seamText is a seam in words: "V1 to V2, 231 mm, butt, bevel 12° inside". Of a seam in
// several parts, each has its name and length: "V1 to V2, 3: 58 mm + 3b: 61 mm".
func seamText(p *pattern.Piece, s *pattern.Seam, u units.Unit) string {
	var spans []string
	var each []float64
	for _, sp := range s.Spans {
		each = append(each, sp.To-sp.From)
	}
	lengths := units.Parts(each, u)
	for i, sp := range s.Spans {
		length := lengths[i]
		if len(s.Spans) > 1 {
			length = edgeOf(p, sp).SeamName() + ": " + length
		}
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

// edgeOf is an edge at a part of a seam.
func edgeOf(p *pattern.Piece, sp pattern.Span) *pattern.Edge {
	return &p.Panels[sp.Sides[0].Panel].Edges[sp.Sides[0].Edge]
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

// bevelText is how the edges of a seam are cut off square: of each part as its panels say
// it where that differs, or of all parts from the least to the greatest where they hardly
// do. Laps are not bevelled.
func bevelText(p *pattern.Piece, s *pattern.Seam) string {
	if p.MockUp || s.Kind == pattern.Lap || s.Kind == pattern.Closure || len(s.Spans) == 0 {
		return ""
	}
	var said []string // in turn
	spans := map[string][]*pattern.Edge{}
	for _, sp := range s.Spans {
		e := edgeOf(p, sp)
		text := cutText(e.Bevel)
		if spans[text] == nil {
			said = append(said, text)
		}
		spans[text] = append(spans[text], e)
	}
	if len(said) == 1 {
		return said[0]
	}
	if all := allParts(p, s); all != "" {
		return all
	}
	for i, text := range said {
		said[i] = partsText(spans[text]) + " " + text
	}
	return strings.Join(said, ", ")
}

// partsText names parts of a seam: "3 and 3c", and of more than two in a row "3 to 3d".
func partsText(edges []*pattern.Edge) string {
	first, last := edges[0], edges[len(edges)-1]
	if len(edges) > 2 && last.Span-first.Span == len(edges)-1 {
		return first.SeamName() + " to " + last.SeamName()
	}
	var names []string
	for _, e := range edges {
		names = append(names, e.SeamName())
	}
	return strings.Join(names, " and ")
}

// allParts is the bevel of all parts of a seam in one, from the least to the greatest that
// the panels say, where all slope one way and differ as little as one edge may; else "".
func allParts(p *pattern.Piece, s *pattern.Seam) string {
	first := edgeOf(p, s.Spans[0]).Bevel
	all := pattern.Bevel{Min: first.Middle(), Max: first.Middle(), Undercut: first.Undercut}
	whole := first
	for _, sp := range s.Spans {
		b := edgeOf(p, sp).Bevel
		if b.Undercut != all.Undercut || b.Max < pattern.SquareBelow {
			return ""
		}
		whole.Min, whole.Max = min(whole.Min, b.Min), max(whole.Max, b.Max)
		all.Min, all.Max = min(all.Min, b.Middle()), max(all.Max, b.Middle())
	}
	if !whole.Even() {
		return ""
	}
	return fmt.Sprintf("bevel %.0f° to %.0f° %s", units.Deg(all.Min), units.Deg(all.Max), cutSide(all))
}

// cutSide is the face that a bevel cuts back.
func cutSide(b pattern.Bevel) string {
	if b.Undercut {
		return "inside"
	}
	return "outside"
}

func cutText(b pattern.Bevel) string {
	switch {
	case b.Max < pattern.SquareBelow:
		return "square cut"
	case b.Even():
		return fmt.Sprintf("bevel %.0f° %s", units.Deg(b.Middle()), cutSide(b))
	}
	return fmt.Sprintf("bevel %.0f° to %.0f° %s", units.Deg(b.Min), units.Deg(b.Max), cutSide(b))
}
