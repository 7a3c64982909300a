package tile

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

var papers = []string{"A4", "Letter", "A3", "300 x 400 mm", "148 x 210 mm", "roll 610 mm"}

// shownBy is the part of a page that shows what no later page covers.
func shownBy(w Window) draw.Rect {
	if w.Grid == nil {
		return w.Clip
	}
	area := w.Clip
	if w.Col < w.Grid.Cols-1 {
		area.Max.X -= Strip
	}
	if w.Row < w.Grid.Rows-1 {
		area.Max.Y -= Strip
	}
	return area
}

func TestLay_everyPointIsPrintedOnceOutsideTheStrips(t *testing.T) {
	for _, paper := range papers {
		checkPrintedOnce(t, laid(t, synthetic(), paper), paper)
	}
}

func checkPrintedOnce(t *testing.T, plan *Plan, paper string) {
	t.Helper()
	for i, piece := range plan.Set.Pieces {
		for j, panel := range piece.Panels {
			for _, p := range samples(panel.Outline) {
				n := 0
				for _, s := range plan.Sheets {
					for _, w := range s.Windows {
						q := w.PageFromPanel.Apply(p)
						r := shownBy(w)
						if w.Piece == i && w.Panel == j && q.X >= r.Min.X && q.X < r.Max.X && q.Y >= r.Min.Y && q.Y < r.Max.Y {
							n++
						}
					}
				}
				if n != 1 {
					t.Fatalf("%s: the point %.1f of %s is printed %d times, want once", paper, p, panel.Label, n)
				}
			}
		}
	}
}

// samples are points over the inside of a ring.
func samples(ring []r2.Vec) []r2.Vec {
	b := geom.Bounds(ring)
	var out []r2.Vec
	for y := b.Min.Y + 0.37; y < b.Max.Y; y += 3.1 {
		for x := b.Min.X + 0.41; x < b.Max.X; x += 3.1 {
			if p := (r2.Vec{X: x, Y: y}); geom.Inside(ring, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

func TestLay_panelsThatFitAreWholeAndApart(t *testing.T) {
	for _, paper := range papers {
		checkWholeAndApart(t, laid(t, synthetic(), paper), paper)
	}
}

func checkWholeAndApart(t *testing.T, plan *Plan, paper string) {
	t.Helper()
	area := plan.Paper.Area()
	for _, s := range plan.Sheets {
		var rings [][]r2.Vec
		for _, w := range s.Windows {
			ring := w.PageFromPanel.ApplyAll(plan.panel(w).Outline)
			if w.Grid != nil {
				if fits(plan.panel(w).Outline, area) && len(s.Windows) == 1 && w.Grid.pages > 1 {
					t.Errorf("%s: %s fits a page but is split", paper, plan.panel(w).Label)
				}
				continue
			}
			for _, p := range ring {
				if p.X < area.Min.X-1e-6 || p.Y < area.Min.Y-1e-6 || p.X > area.Max.X+1e-6 || p.Y > area.Max.Y+1e-6 {
					t.Errorf("%s: %s leaves the page's area at %.2f", paper, plan.panel(w).Label, p)
				}
			}
			rings = append(rings, ring)
		}
		for i := range rings {
			for j := range i {
				if d := gap(rings[i], rings[j]); d < between-1e-6 {
					t.Errorf("%s: two panels are %.2f mm apart, want at least %d", paper, d, between)
				}
			}
		}
	}
}

// gap is the least distance from corners of one ring to the other.
func gap(a, b []r2.Vec) float64 {
	d := math.Inf(1)
	for _, p := range a {
		d = min(d, geom.DistToRing(b, p))
	}
	for _, p := range b {
		d = min(d, geom.DistToRing(a, p))
	}
	return d
}

// All that must be known after cutting stands inside the outline.
func TestPages_labelsStandInsideTheirFragments(t *testing.T) {
	for _, paper := range papers {
		checkAllLabels(t, laid(t, synthetic(), paper), paper)
	}
}

func checkAllLabels(t *testing.T, plan *Plan, paper string) {
	t.Helper()
	for _, s := range plan.Sheets {
		for _, w := range s.Windows {
			checkLabels(t, plan, w, paper)
		}
	}
}

func checkLabels(t *testing.T, plan *Plan, w Window, paper string) {
	t.Helper()
	d := &drawing{piece: plan.piece(w), panel: plan.panel(w), w: w}
	d.fragments()
	var texts []*draw.Text
	items, _ := plan.drawPanel(w)
	for _, it := range items {
		if text, ok := it.(*draw.Text); ok {
			texts = append(texts, text)
		}
	}
	name := fmt.Sprintf("%s, %s row %d column %d", paper, d.panel.Label, w.Row, w.Col)
	for i, text := range texts {
		if text.Size < 5*25.4/72-1e-9 {
			t.Errorf("%s: %q is %.2f mm high, less than 5 pt", name, text.S, text.Size)
		}
		c := text.Corners()
		home := -1
		for k, r := range d.rooms {
			if r.free(c) {
				home = k
			}
		}
		if home < 0 {
			t.Errorf("%s: %q is not inside the panel", name, text.S)
		}
		for _, other := range texts[:i] {
			if overlap(c, other.Corners()) {
				t.Errorf("%s: %q and %q overlap", name, text.S, other.S)
			}
		}
	}
	all := ""
	for _, text := range texts {
		all += text.S + "\n"
	}
	known := []string{d.panel.Label, d.piece.Name, copies(plan.panel(w).Copies, plan.panel(w).Flipped), "OUTSIDE", "rev " + Revision(d.piece, d.panel)}
	if d.piece.Draft {
		known = append(known, "DRAFT")
	}
	for _, r := range d.rooms {
		if holdsSquare(r, 25) { // six lines of 5 pt, and two seams' labels
			saysAll(t, name, all, known)
		}
	}
	if w.Grid == nil { // a smaller one may say it beside it
		said := ""
		for _, it := range w.drawn {
			if text, ok := it.(*draw.Text); ok {
				said += text.S + "\n"
			}
		}
		saysAll(t, name+", with what stands beside it", said, known)
	}
	if w.Grid != nil {
		return
	}
	for _, e := range d.panel.Edges {
		if e.Seam > 0 && !strings.Contains(all, fmt.Sprintf("%d ▸ %s", e.Seam, e.Partner)) {
			t.Errorf("%s: the edge of seam %d is not labelled", name, e.Seam)
		}
	}
}

func saysAll(t *testing.T, name, said string, all []string) {
	t.Helper()
	for _, want := range all {
		if !strings.Contains(said, want) {
			t.Errorf("%s: does not say %q; it says %q", name, want, said)
		}
	}
}

func holdsSquare(r *room, side float64) bool {
	b := geom.Bounds(r.ring)
	for y := b.Min.Y; y <= b.Max.Y; y += 2 {
		for x := b.Min.X; x <= b.Max.X; x += 2 {
			if r.free(rectangle(r2.Vec{X: x, Y: y}, side, side, 0)) {
				return true
			}
		}
	}
	return false
}

func overlap(a, b [4]r2.Vec) bool {
	for i := range b {
		if leaf.Touches(a, b[i], b[(i+1)%4]) {
			return true
		}
	}
	return leaf.InBox(b, a[0])
}

func TestLay_panelsThatHaveNotChangedStay(t *testing.T) {
	before := laid(t, synthetic(), "A4")
	set := synthetic()
	set.Pieces[0].Panels[0] = box("V1", "outer side", 118, 90)
	after, _, err := Lay(context.Background(), set, before.Paper, before)
	if err != nil {
		t.Fatal(err)
	}
	places := map[string]geom.Rigid{}
	for _, s := range before.Sheets {
		for _, w := range s.Windows {
			places[before.key(w)] = w.PageFromPanel
		}
	}
	kept := 0
	for _, s := range after.Sheets {
		for _, w := range s.Windows {
			if was, ok := places[after.key(w)]; ok && w.Grid == nil {
				kept++
				if was != w.PageFromPanel {
					t.Errorf("%s moved though it did not change", after.panel(w).Label)
				}
			}
		}
	}
	if kept != 6 {
		t.Errorf("%d panels kept their places, want 6", kept)
	}
}

func TestRevision_followsContentAlone(t *testing.T) {
	set := synthetic()
	a := laid(t, set, "A4")
	moved := &pattern.Set{Pieces: []pattern.Piece{set.Pieces[2], set.Pieces[0], set.Pieces[1]}}
	b := laid(t, moved, "A4")
	revisions := map[string]bool{}
	for i := range a.Sheets {
		revisions[a.Revision(i)] = true
	}
	for i := range b.Sheets {
		if w := b.Sheets[i].Windows[0]; w.Grid != nil && !revisions[b.Revision(i)] {
			t.Errorf("sheet %d has another revision though it shows the same", i)
		}
	}
	p := set.Pieces[0].Panels[0]
	p.Outline = append([]r2.Vec(nil), p.Outline...)
	p.Outline[1].X += 0.01
	if Revision(&set.Pieces[0], &p) == Revision(&set.Pieces[0], &set.Pieces[0].Panels[0]) {
		t.Error("an outline that moved by 0.01 mm kept its revision")
	}
}

func TestLay_refusesNothing(t *testing.T) {
	if _, _, err := Lay(context.Background(), &pattern.Set{}, Paper{Width: 210, Height: 297}, nil); err == nil {
		t.Error("a set without panels was laid")
	}
}
