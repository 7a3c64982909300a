package costume

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/tile"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// demoOnLargePaper builds the demonstration, and its helmet in strips as well,
// on pages that no panel is split on.
func demoOnLargePaper(t *testing.T) *tile.Plan {
	t.Helper()
	dir := t.TempDir()
	strips := "\npieces:\n  - piece: open-helmet\n    name: strip cap\n    settings: {layout: strips}\n"
	if err := Demo(dir); err != nil {
		t.Fatal(err)
	}
	if err := Save(filepath.Join(dir, CostumeFile), []byte(strings.Replace(demoFile(t, CostumeFile), "\npieces:\n", strips, 1))); err != nil {
		t.Fatal(err)
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Shape(context.Background(), f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	paper, err := tile.ParsePaper("900 x 900 mm")
	if err != nil {
		t.Fatal(err)
	}
	plan, _, err := tile.Lay(context.Background(), r.Set, paper, nil)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// Two edges that run straight on into each other are told apart by a bar alone.
func TestPages_edgesThatRunOn(t *testing.T) {
	paper, err := tile.ParsePaper("A4")
	if err != nil {
		t.Fatal(err)
	}
	plan, _, err := tile.Lay(context.Background(), &pattern.Set{Pieces: []pattern.Piece{runOn()}}, paper, nil)
	if err != nil {
		t.Fatal(err)
	}
	pages := plan.Pages()
	for _, err := range readPages(plan, pages).faults {
		t.Error(err)
	}
	for i := range pages {
		pages[i].Items = withoutBars(pages[i].Items)
	}
	if len(readPages(plan, pages).faults) == 0 {
		t.Error("the edges can be told apart without the bar; then it is not needed")
	}
}

func withoutBars(items []draw.Item) []draw.Item {
	var out []draw.Item
	for _, it := range items {
		if p, ok := it.(*draw.Path); !ok || p.Layer != "seam" {
			out = append(out, it)
		}
	}
	return out
}

// runOn is a flat piece: a panel whose straight upper edge meets two others.
func runOn() pattern.Piece {
	joint := func(seam int, partner string, along bool, a, b r2.Vec) pattern.Edge {
		return pattern.Edge{Kind: pattern.Butt, Seam: seam, Span: 1, Line: []r2.Vec{a, b}, Length: geom.Dist(a, b), Along: along, Partner: partner}
	}
	rim := func(pts ...r2.Vec) pattern.Edge { return pattern.Edge{Line: pts, Length: geom.Length(pts)} }
	p := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	return pattern.Piece{Name: "board", Code: "B", Copies: 1, Thickness: 5, Panels: []pattern.Panel{
		plane("B1", joint(1, "B2", true, p(140, 80), p(70, 80)), joint(2, "B3", true, p(70, 80), p(0, 80)), rim(p(0, 80), p(0, 0), p(140, 0), p(140, 80))),
		plane("B2", joint(1, "B1", false, p(70, 80), p(140, 80)), rim(p(140, 80), p(140, 160), p(70, 160), p(70, 80))),
		plane("B3", joint(2, "B1", false, p(0, 80), p(70, 80)), rim(p(70, 80), p(70, 160), p(0, 160), p(0, 80))),
	}}
}

func plane(label string, edges ...pattern.Edge) pattern.Panel {
	panel := pattern.Panel{Label: label, Copies: 1, Edges: edges, Up: r2.Vec{Y: 1}}
	for _, e := range edges {
		panel.Outline = append(panel.Outline, e.Line[:len(e.Line)-1]...)
	}
	for i, q := range panel.Outline {
		panel.Surface.Flat = append(panel.Surface.Flat, q)
		panel.Surface.Bent = append(panel.Surface.Bent, r3.Vec{X: q.X, Y: q.Y})
		if i > 1 {
			panel.Surface.T = append(panel.Surface.T, [3]int{0, i - 1, i})
		}
	}
	return panel
}

// spoiltPages: pages that are a little wrong must not pass.
func spoiltPages(t *testing.T, plan *tile.Plan, pages []draw.Page) {
	for _, c := range []struct {
		name  string
		spoil func(page *draw.Page) bool // tells whether it found what to spoil
		says  string
	}{
		{"a notch moved by 1 mm", moveNotch(1), "stands at"},
		{"a notch moved by 0.06 mm", moveNotch(0.06), "stands at"},
		{"a notch left out", leaveOutNotch, "notches"},
		{"an edge longer by 0.2 mm", lengthen(0.2), "differ in length"},
		{"an edge longer by 0.06 mm", lengthen(0.06), "differ in length"},
		{"another seam's number", retext("3 ▸ ", "4 ▸ "), "has 0 partners"},
		{"another seam's number in one of two places", retextOnce(" ▸ ", "9 ▸ "), "says"},
		{"the wrong hand in one of two places", retextOnce(" flipped", ""), "says"},
		{"a seam text left out", retext("3 ▸ ", ""), "does not say what it meets"},
		{"a copy of the wrong hand", retext(" flipped", ""), "partners"},
	} {
		bad := copied(pages)
		spoilt := false
		for i := len(bad) - len(plan.Sheets); i < len(bad) && !spoilt; i++ {
			spoilt = c.spoil(&bad[i])
		}
		if !spoilt {
			t.Errorf("%s: found nothing to spoil", c.name)
		}
		if !readPages(plan, bad).says(c.says) {
			t.Errorf("%s was not found", c.name)
		}
	}
	bent := plan.Set.Pieces[0].Panels[0].Surface.Bent
	for i := range bent {
		bent[i].Z += 0.6
	}
	if !readPages(plan, pages).says("apart when the piece is closed") {
		t.Error("a panel that stands 0.6 mm off was not found")
	}
}

func copied(pages []draw.Page) []draw.Page {
	out := append([]draw.Page(nil), pages...)
	for i := range out {
		items := append([]draw.Item(nil), out[i].Items...)
		for j, it := range items {
			switch it := it.(type) {
			case *draw.Text:
				text := *it
				items[j] = &text
			case *draw.Path:
				path := *it
				path.Subpaths = nil
				for _, sub := range it.Subpaths {
					path.Subpaths = append(path.Subpaths, append([]r2.Vec(nil), sub...))
				}
				items[j] = &path
			}
		}
		out[i].Items = items
	}
	return out
}

// moveNotch moves the first single stroke along its edge.
func moveNotch(by float64) func(*draw.Page) bool {
	return func(page *draw.Page) bool {
		return firstStroke(page, func(i int, p *draw.Path) {
			line := p.Subpaths[0]
			d := r2.Unit(r2.Sub(line[1], line[0]))
			off := r2.Scale(by, r2.Vec{X: -d.Y, Y: d.X})
			line[0], line[1] = r2.Add(line[0], off), r2.Add(line[1], off)
		})
	}
}

func leaveOutNotch(page *draw.Page) bool {
	return firstStroke(page, func(i int, _ *draw.Path) { page.Items = append(page.Items[:i:i], page.Items[i+1:]...) })
}

func firstStroke(page *draw.Page, do func(int, *draw.Path)) bool {
	for i, it := range page.Items {
		if p, ok := it.(*draw.Path); ok && p.Layer == "mark" && !p.Closed && len(p.Subpaths[0]) == 2 {
			do(i, p)
			return true
		}
	}
	return false
}

// lengthen moves the end of the first thick line on.
func lengthen(by float64) func(*draw.Page) bool {
	return func(page *draw.Page) bool {
		for _, it := range page.Items {
			if p, ok := it.(*draw.Path); ok && p.Layer == "cut" && p.Stroke.Width > 0.5 {
				line := p.Subpaths[0]
				n := len(line)
				line[n-1] = r2.Add(line[n-1], r2.Scale(by, r2.Unit(r2.Sub(line[n-1], line[n-2]))))
				return true
			}
		}
		return false
	}
}

// retext changes the first seam text that has some words, wherever it stands: a
// long edge has it twice.
func retext(old, with string) func(*draw.Page) bool {
	return func(page *draw.Page) bool {
		said := ""
		for _, it := range page.Items {
			text, ok := it.(*draw.Text)
			if !ok || !seamText.MatchString(text.S) || !strings.Contains(text.S, old) {
				continue
			}
			if said == "" {
				said = text.S
			}
			if text.S == said {
				text.S = strings.Replace(text.S, old, with, 1)
			}
		}
		return said != ""
	}
}

// retextOnce changes the first of two texts that one edge has; the other then says
// something else.
func retextOnce(old, with string) func(*draw.Page) bool {
	return func(page *draw.Page) bool {
		first := map[string]*draw.Text{}
		for _, it := range page.Items {
			text, ok := it.(*draw.Text)
			if !ok || !seamText.MatchString(text.S) || !strings.Contains(text.S, old) {
				continue
			}
			if one := first[text.S]; one != nil {
				one.S = strings.Replace(one.S, old, with, 1)
				return true
			}
			first[text.S] = text
		}
		return false
	}
}
