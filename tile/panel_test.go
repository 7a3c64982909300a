package tile

import (
	"context"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func set(panels ...pattern.Panel) *pattern.Set {
	return &pattern.Set{Pieces: []pattern.Piece{{Name: "belt", Code: "B", Copies: 1, Thickness: 5, Panels: panels}}}
}

// A panel too small for its texts has them beside it, each with a line to its edge
// or to the panel; one for which the page has no room either is named.
func TestLay_textsBesideASmallPanel(t *testing.T) {
	plan := laid(t, set(box("B1", "tab", 7, 7)), "A4")
	w := plan.Sheets[0].Windows[0]
	ring := w.PageFromPanel.ApplyAll(plan.panel(w).Outline)
	said := ""
	for _, it := range w.drawn {
		text, ok := it.(*draw.Text)
		if !ok || geom.Inside(ring, text.At) {
			continue
		}
		said += text.S + "\n"
	}
	for _, want := range []string{"cut 2, 1 flipped", "5 mm foam", "1 ▸ B2"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q does not stand beside the panel: %q", want, said)
		}
	}
	pointers := 0
	for _, it := range w.drawn {
		path, ok := it.(*draw.Path)
		if !ok || path.Layer != "aside" || path.Closed {
			continue
		}
		pointers++
		if to := path.Subpaths[0][1]; geom.DistToRing(ring, to) > 0.01 && !geom.Inside(ring, to) {
			t.Errorf("a line ends %.1f mm off the panel", geom.DistToRing(ring, to))
		}
	}
	if pointers < 2 {
		t.Errorf("%d lines point at the panel, want one for each text beside it", pointers)
	}
}

func TestLay_namesWhatHasNoRoom(t *testing.T) {
	paper, _ := ParsePaper("A4")
	area := paper.Area()
	for _, c := range []struct {
		side float64
		says bool
	}{{3, true}, {60, false}} { // beside a panel as large as the page, nothing has room
		long := box("B1", "tab", area.Max.X-area.Min.X-2*c.side, area.Max.Y-area.Min.Y-1)
		small := box("B2", "tab", c.side, area.Max.Y-area.Min.Y-1)
		if c.says {
			long = small
			long.Label = "B1"
			small = box("B3", "rest", area.Max.X-area.Min.X-12, area.Max.Y-area.Min.Y-1)
		}
		_, found, err := Lay(context.Background(), set(long, small), paper, nil)
		if err != nil {
			t.Fatal(err)
		}
		says := false
		for _, f := range found {
			says = says || f.Subject == "B1" && strings.Contains(f.Said, "1 ▸ B2")
		}
		if says != c.says {
			t.Errorf("a panel %g mm wide: findings %v", c.side, found)
		}
	}
}

// A mark that reaches over the edge is drawn as far as the panel goes.
func TestMarks_stayOnTheirPanel(t *testing.T) {
	panel := box("B1", "tab", 60, 60)
	panel.Marks = []pattern.Mark{{Kind: "fastening", Close: true, Line: []r2.Vec{{X: 20, Y: -30}, {X: 40, Y: -30}, {X: 40, Y: 20}, {X: 20, Y: 20}}}}
	plan := laid(t, set(panel), "A4")
	w := plan.Sheets[0].Windows[0]
	ring := w.PageFromPanel.ApplyAll(panel.Outline)
	length := 0.0
	for _, it := range w.drawn {
		p, ok := it.(*draw.Path)
		if !ok || p.Stroke.Dash == nil || p.Layer != "mark" {
			continue
		}
		for _, q := range p.Subpaths[0] {
			if !geom.Inside(ring, q) && geom.DistToRing(ring, q) > 1e-6 {
				t.Errorf("the mark reaches %.1f mm off the panel", geom.DistToRing(ring, q))
			}
		}
		length += geom.Length(p.Subpaths[0])
	}
	if want := 20.0 + 20 + 20; length < want-1e-6 || length > want+1e-6 {
		t.Errorf("%.3f mm of the mark are drawn, want %.3f", length, want)
	}
}

// What is said at a border that is glued stands clear of the panel's lines.
func TestJoin_notesAreLegible(t *testing.T) {
	across := long("L1", 700, 260)
	for x := 20.0; x < 700; x += 60 { // wherever the borders come to lie, some fold is near
		across.Folds = append(across.Folds, pattern.Fold{Line: []r2.Vec{{X: x, Y: 30}, {X: x, Y: 230}}, Kind: "grooved inside", Angle: 1})
	}
	for _, paper := range []string{"A4", "Letter", "A3"} {
		plan := laid(t, set(across), paper)
		texts := 0
		for _, s := range plan.Sheets {
			for _, w := range s.Windows {
				for _, it := range join(w, w.drawn) {
					text, ok := it.(*draw.Text)
					if !ok {
						continue
					}
					texts++
					if leaf.Struck(text.Corners(), w.drawn) {
						t.Errorf("%s, row %d column %d: something runs through %q", paper, w.Row, w.Col, text.S)
					}
				}
			}
		}
		if texts < 6 {
			t.Errorf("%s: only %d notes", paper, texts)
		}
	}
}

// A line to what a text beside a panel is about runs beside the panel's own texts.
func TestCrossesText(t *testing.T) {
	s := Sheet{Windows: []Window{{drawn: []draw.Item{&draw.Text{At: r2.Vec{X: 50, Y: 50}, Size: 4, S: "B1 tab"}}}}}
	for _, c := range []struct {
		from, to r2.Vec
		want     bool
	}{{r2.Vec{X: 55, Y: 20}, r2.Vec{X: 55, Y: 80}, true}, {r2.Vec{X: 40, Y: 20}, r2.Vec{X: 40, Y: 80}, false}, {r2.Vec{X: 55, Y: 20}, r2.Vec{X: 55, Y: 45}, false}} {
		if got := s.texts().crossed(c.from, c.to); got != c.want {
			t.Errorf("from %v to %v: %t", c.from, c.to, got)
		}
	}
}

// An edge that begins with two points at one place keeps no text off the panel.
func TestLay_edgeWithoutDirection(t *testing.T) {
	p := box("B1", "tab", 400, 150)
	p.Edges[2].Line = append([]r2.Vec{p.Edges[2].Line[0]}, p.Edges[2].Line...)
	plan := laid(t, set(p), "A4")
	said := ""
	for _, it := range plan.Sheets[0].Windows[0].drawn {
		if text, ok := it.(*draw.Text); ok {
			said += text.S + "\n"
		}
	}
	for _, want := range []string{"cut 2, 1 flipped", "1 ▸ B2"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q does not stand on the panel: %q", want, said)
		}
	}
}
