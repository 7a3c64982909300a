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

func TestLay_namesWhatHasNoRoom(t *testing.T) {
	paper, _ := ParsePaper("A4")
	for _, c := range []struct {
		side float64
		says bool
	}{{7, true}, {60, false}} {
		_, found, err := Lay(context.Background(), set(box("B1", "tab", c.side, c.side)), paper, nil)
		if err != nil {
			t.Fatal(err)
		}
		if says := len(found) == 1 && found[0].Subject == "B1" && strings.Contains(found[0].Said, "1 ▸ B2"); says != c.says {
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
