package tile

import (
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func patch(text string, x, y, w, h float64) pattern.Mark {
	return pattern.Mark{Kind: "fastening", Close: true, Text: text, Line: []r2.Vec{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}}
}

// Each mark's text is there, and none of them in the patch of another: patches that
// overlap, small ones within a large one, and ones that the title would like.
func TestMarkLabels_standWhereTheyBelong(t *testing.T) {
	panel := box("B1", "plate", 110, 90)
	panel.Marks = []pattern.Mark{
		patch("strap 1, inside", 20, 20, 50, 50), patch("strap 2, inside", 50, 40, 40, 40),
		patch("rivet 7", 24, 24, 10, 10), patch("rivet 8", 95, 6, 10, 10),
		{Kind: "line", Line: []r2.Vec{{X: 5, Y: 9}, {X: 60, Y: 9}}, Text: "trim on the outside"},
	}
	plan := laid(t, set(panel), "A4")
	w := plan.Sheets[0].Windows[0]
	back := w.PageFromPanel.Inverse()
	for i, m := range panel.Marks {
		at, ok := textOf(w.drawn, m.Text)
		if !ok {
			t.Errorf("%q is not said", m.Text)
			continue
		}
		for j, o := range panel.Marks {
			if j != i && o.Close && !pointedTo(w.drawn, at) && geom.Inside(o.Line, back.Apply(at)) {
				t.Errorf("%q stands in the patch of %q", m.Text, o.Text)
			}
		}
	}
}

// textOf finds the first row of a text whose rows stand under each other.
func textOf(items []draw.Item, s string) (at r2.Vec, ok bool) {
	for i := range items {
		said := ""
		for _, it := range items[i:] {
			text, is := it.(*draw.Text)
			if !is || len(said) >= len(s) {
				break
			}
			said = strings.TrimSpace(said + " " + text.S)
		}
		if said == s {
			return items[i].(*draw.Text).At, true
		}
	}
	return at, false
}

// pointedTo tells whether a place is in the frame of a text that a line belongs to.
func pointedTo(items []draw.Item, at r2.Vec) bool {
	for _, it := range items {
		if p, ok := it.(*draw.Path); ok && p.Layer == "aside" && p.Closed && geom.Inside(p.Subpaths[0], at) {
			return true
		}
	}
	return false
}

// What is glued over a panel that is formed says that it waits until then.
func TestMarkLabels_afterForming(t *testing.T) {
	panel := box("B1", "plate", 110, 90)
	pad := patch("pad B2 inside", 20, 20, 50, 50)
	pad.Kind = "pad"
	panel.Marks = []pattern.Mark{pad}
	for _, formed := range []*pattern.Formed{nil, {}} {
		panel.Formed = formed
		plan := laid(t, set(panel), "A4")
		_, later := textOf(plan.Sheets[0].Windows[0].drawn, "pad B2 inside, after forming")
		if later != (formed != nil) {
			t.Errorf("formed %t: says that it is glued after forming: %t", formed != nil, later)
		}
	}
}

// A pad is of soft foam, in a mock-up too.
func TestTitle_padInAMockUp(t *testing.T) {
	panel := box("B1", "pad", 60, 60)
	panel.Thick = 12
	for role, want := range map[pattern.Role]string{pattern.Pad: "12 mm soft foam", pattern.OfShell: "mock-up in card"} {
		panel.Role = role
		s := set(panel)
		s.Pieces[0].MockUp = true
		found := false
		for _, it := range laid(t, s, "A4").Sheets[0].Windows[0].drawn {
			text, ok := it.(*draw.Text)
			found = found || ok && strings.Contains(text.S, want)
		}
		if !found {
			t.Errorf("role %d: no text says %q", role, want)
		}
	}
}
