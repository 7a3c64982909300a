package pattern_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/pattern"
	"tasset/templates"
)

// padRows are the rows of a template's pads.
var padRows = regexp.MustCompile(`(?m)^pads:\n( .*\n)+`)

// unpadded is the built-in open helmet without pads: of its shell alone.
func unpadded(t testing.TB) string {
	t.Helper()
	text, err := templates.FS.ReadFile("open-helmet.yaml")
	if err != nil {
		t.Fatal(err)
	}
	bare := padRows.ReplaceAllString(string(text), "")
	if strings.Contains(bare, "pad,") {
		t.Fatal("the built-in helmet has pads elsewhere")
	}
	return bare
}

// formedHelmet is the built-in helmet of gores, with gores that are formed.
func formedHelmet(t testing.TB) fstest.MapFS {
	t.Helper()
	text := unpadded(t)
	formed := strings.Replace(text, "bend: along", "bend: formed", 1)
	if formed == text {
		t.Fatal("the built-in helmet has no gores that bend along it")
	}
	return fstest.MapFS{"open-helmet.yaml": {Data: []byte(formed)}}
}

// A helmet of formed gores on bodies drawn from the survey: what must be true of
// every piece is, and the foam keeps its distance.
func TestMake_formedHelmet(t *testing.T) {
	fsys := formedHelmet(t)
	for i := range 10 {
		form := drawBody(t, i)
		o := pattern.Order{Name: "gores", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}}, Traced: pattern.Face(i % 3)}
		o.Settings = settingsFor(t, o, i)
		m := pattern.Material{Thickness: []float64{0, 2, 5, 8, 10}[i%5], K: []float64{0.5, 0.6}[i%2]}
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, fsys, form, m)
			if err != nil {
				t.Fatal(err)
			}
			p := &set.Pieces[0]
			pattern.CheckPiece(t, p)
			if p.Clearance < 0.98*p.Asked {
				t.Errorf("the inner face comes within %.2f mm of the body; %.2f mm were asked for", p.Clearance, p.Asked)
			}
			for _, panel := range p.Panels {
				t.Logf("%s %d triangles, stretch %.3f gather %.3f", panel.Label, len(panel.Surface.T), panel.Formed.Stretch.P95, panel.Formed.Gather.P95)
			}
		})
	}
}

// Foam that shrinks when heated: formed panels are drawn larger by that, so that
// an edge is as long as its seam once the panel has been heated.
func TestMake_formedPanelsAreDrawnLargerByTheShrink(t *testing.T) {
	form := drawBody(t, 0)
	make := func(shrink float64) *pattern.Piece {
		o := pattern.Order{Name: "h", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}}}
		set, fs, err := pattern.Make(context.Background(), []pattern.Order{o}, formedHelmet(t), form, pattern.Material{K: 0.5, Shrink: shrink})
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, f := range fs {
			said += f.Said
		}
		if larger := strings.Contains(said, "drawn larger by the shrink of 2.0 %"); larger != (shrink > 0) {
			t.Errorf("shrink %g: said %q", shrink, said)
		}
		return &set.Pieces[0]
	}
	as, larger := make(0), make(0.02)
	for i := range as.Panels {
		for k, e := range as.Panels[i].Edges {
			if l := larger.Panels[i].Edges[k].Length * 0.98; math.Abs(l-e.Length) > 1e-6*e.Length+1e-6 {
				t.Errorf("%s edge %d is %.4f mm when it has shrunk, want %.4f", as.Panels[i].Label, k, l, e.Length)
			}
		}
		if note := larger.Panels[i].Notes; len(note) == 0 || !strings.Contains(note[0], "2.0 % larger") {
			t.Errorf("%s says %q", as.Panels[i].Label, note)
		}
	}
}

func BenchmarkMake_formedHelmet(b *testing.B) {
	form := drawBody(b, 0)
	fsys := formedHelmet(b)
	o := pattern.Order{Name: "gores", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}}}
	for range b.N {
		if _, _, err := pattern.Make(context.Background(), []pattern.Order{o}, fsys, form, pattern.Material{K: 0.5}); err != nil {
			b.Fatal(err)
		}
	}
}
