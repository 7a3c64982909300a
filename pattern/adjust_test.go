package pattern_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"
)

func makeOne(t *testing.T, form *body.Form, o pattern.Order) *pattern.Piece {
	t.Helper()
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{Thickness: 5, K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, &set.Pieces[0])
	return &set.Pieces[0]
}

func reach(p *pattern.Piece) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, panel := range p.Panels {
		for _, v := range panel.Surface.Bent {
			low, high = min(low, v.Y), max(high, v.Y)
		}
	}
	return low, high
}

// "length: +12 mm" makes a tube 12 mm longer, and a closed helm 12 mm deeper at
// its rim.
func TestMake_lengthAdjusted(t *testing.T) {
	form := drawBody(t, 4)
	for _, name := range []string{"vambrace", "helm"} {
		o := pattern.Order{Name: name, Template: name, Side: body.Left}
		low, high := reach(makeOne(t, form, o))
		o.Adjust = map[string]pattern.Value{"length": {Number: 12, Typed: "+12 mm"}}
		low2, high2 := reach(makeOne(t, form, o))
		if grown := (high2 - low2) - (high - low); math.Abs(grown-12) > 0.5 {
			t.Errorf("%s: grew by %.2f mm, want 12", name, grown)
		}
		if name == "helm" && math.Abs(high2-high) > 0.5 {
			t.Errorf("helm: its top moved by %.2f mm", high2-high)
		}
	}
}

// A girth adjusted by 20 mm moves the foam by as much as if the wearer had
// been measured so.
func TestMake_girthAdjusted(t *testing.T) {
	form := drawBody(t, 7)
	o := pattern.Order{Name: "vambrace", Template: "vambrace", Side: body.Left}
	rim := func(p *pattern.Piece) float64 {
		sum := 0.0
		for _, panel := range p.Panels {
			for _, e := range panel.Edges {
				if e.Kind == pattern.Rim && !e.Gap {
					sum += e.Length
				}
			}
		}
		return sum / 2
	}
	before := rim(makeOne(t, form, o))
	o.Adjust = map[string]pattern.Value{"wrist girth": {Number: 20}, "forearm girth flexed": {Number: 20}}
	if grown := rim(makeOne(t, form, o)) - before; grown < 14 || grown > 26 {
		t.Errorf("the mean rim grew by %.1f mm, want about 20", grown)
	}
	o.Adjust = map[string]pattern.Value{"wrist girth": {Number: 20, Typed: "+20 mm"}}
	p := makeOne(t, form, o)
	if !slices.ContainsFunc(p.Governs, func(g pattern.Governing) bool { return g.Name == "wrist girth" && g.Changed == "+20 mm" }) {
		t.Errorf("what a fitting changed is not told of the sizes: %+v", p.Governs)
	}
	if !slices.Contains(p.Notes, "After a fitting: wrist girth changed by +20 mm.") {
		t.Errorf("no note tells of the fitting: %q", p.Notes)
	}
	o.Adjust = map[string]pattern.Value{"wrist gith": {Number: 20}}
	_, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{K: 0.5})
	if err == nil || !strings.Contains(err.Error(), "wrist girth") {
		t.Errorf("a misspelt adjustment gives %v; want the nearest name", err)
	}
}

// A right piece is the left one's mirror image when both arms measure alike.
func TestMake_rightIsLeftMirrored(t *testing.T) {
	form := drawBody(t, 2)
	l := makeOne(t, form, pattern.Order{Name: "v", Template: "vambrace", Side: body.Left})
	r := makeOne(t, form, pattern.Order{Name: "v", Template: "vambrace", Side: body.Right})
	for i := range l.Panels {
		a, b := l.Panels[i], r.Panels[i]
		if d := math.Abs(geom.Area(a.Outline) - geom.Area(b.Outline)); d > 1 {
			t.Errorf("panel %d: areas differ by %.2f mm²", i, d)
		}
		if a.Edges[0].Length == 0 || len(a.Edges) != len(b.Edges) {
			t.Errorf("panel %d: %d and %d edges", i, len(a.Edges), len(b.Edges))
		}
	}
}

// A shrinkage that the templates do not take up is said, not swallowed.
func TestMake_shrinkIsSaid(t *testing.T) {
	form := drawBody(t, 1)
	for shrink, want := range map[float64]bool{0: false, 0.02: true} {
		_, fs, err := pattern.Make(context.Background(), []pattern.Order{{Name: "v", Template: "vambrace"}}, templates.FS, form, pattern.Material{Thickness: 5, K: 0.5, Shrink: shrink})
		if err != nil {
			t.Fatal(err)
		}
		said := false
		for _, f := range fs {
			said = said || strings.Contains(f.Said, "shrink of 2.0 %")
		}
		if said != want {
			t.Errorf("shrink %g: said %v, want %v", shrink, said, want)
		}
	}
}
