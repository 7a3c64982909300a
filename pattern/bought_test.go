package pattern_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/templates"
)

func mm(v float64) pattern.Value { return pattern.Value{Number: v} }

// A sword's rod runs from the middle of its pommel half way up its blade. One that is
// thicker than the core needs a groove in what lies on either side, as deep as half of
// what it is thicker, and one that foam could not cover is doubted, at the line where it
// was set.
func TestBought_rodOfASword(t *testing.T) {
	form := drawBody(t, 4)
	for _, c := range []struct {
		rod, core float64
		groove    string
		doubted   bool
	}{{8, 5, "1.5 mm", false}, {16, 5, "5.5 mm", true}, {16, 10, "3 mm", false}, {8, 10, "", false}, {10, 10, "", false}, {13, 5, "4 mm", false}, {13.5, 5, "4.2 mm", true}} {
		o := pattern.Order{Name: "sword", Template: "blade", Units: units.CM, Where: "costume.yaml:7", Places: map[string]string{"rod": "costume.yaml:9"},
			Settings: map[string]pattern.Value{"length": mm(700), "grip": mm(100), "pommel": mm(50), "rod": mm(c.rod), "core thickness": mm(c.core)}}
		set, findings, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		if b := p.Bought; len(b) != 1 || b[0].Count != 1 || math.Abs(b[0].Long-(21+100+24+350)) > 1e-6 || b[0].Thick != c.rod || c.groove != "" && !strings.Contains(b[0].Text, c.groove+" deep") {
			t.Errorf("rod %v mm: to buy %+v", c.rod, b)
		}
		doubt := slices.IndexFunc(findings, func(f report.Finding) bool { return strings.Contains(f.Said, "its rod is ") })
		if (doubt >= 0) != c.doubted {
			t.Errorf("rod %v mm in a core of %v: findings %v", c.rod, c.core, findings)
		}
		if doubt >= 0 && (findings[doubt].Level != report.Doubt || findings[doubt].Where != "costume.yaml:9" || !strings.Contains(findings[doubt].Perhaps, "13 mm at most")) {
			t.Errorf("it is doubted by %+v", findings[doubt])
		}
		grooved := map[string]string{}
		for _, panel := range p.Panels {
			for _, m := range panel.Marks {
				if m.Kind == "text" && strings.Contains(m.Text, "groove") {
					grooved[panel.Name] = m.Text
				}
			}
		}
		if c.groove == "" && len(grooved) > 0 || c.groove != "" && len(grooved) != 6 {
			t.Errorf("rod %v mm in a core of %v: grooves in %v", c.rod, c.core, grooved)
		}
		for name, said := range grooved {
			if !strings.Contains(said, "a groove "+c.groove+" deep") {
				t.Errorf("rod %v mm: %s says %q", c.rod, name, said)
			}
		}
	}
}

// Settings of the catalogue that are each within their limits and do not go together are
// doubted, and those beside them are not.
func TestDoubts_ofTheCatalogue(t *testing.T) {
	form := drawBody(t, 4)
	set := func(v ...any) map[string]pattern.Value {
		out := map[string]pattern.Value{}
		for i := 0; i < len(v); i += 2 {
			out[v[i].(string)] = mm(v[i+1].(float64))
		}
		return out
	}
	for _, c := range []struct {
		template string
		thick    float64
		settings map[string]pattern.Value
		said     string // "": nothing of it
		of       string
	}{
		{"blade", 0, set("rod", 14., "pommel", 35.), "its pommel is 35 mm wide, and its grip 36 mm where they meet", "pommel is"},
		{"blade", 0, set("rod", 14., "pommel", 36.), "", "pommel is"},
		{"blade", 0, set("guard", 110., "width", 81.), "its guard is 110 mm long, and the blade 81 mm wide", "guard is"},
		{"blade", 0, set("guard", 110., "width", 80.), "", "guard is"},
		{"staff", 0, set("core", 40., "top width", 86.), "its collar is 51.6 mm wide inside and the foot of its head 48 mm", "collar is"},
		{"staff", 0, set("core", 40., "top width", 87.), "", "collar is"},
		{"axe-head", 0, set("edge", 140., "beard", 0.7, "haft", 26.), "its box is only 25.2 mm high inside round a haft of 26 mm", "box is"},
		{"axe-head", 0, set("edge", 140., "beard", 0.7, "haft", 25.), "", "box is"},
		{"belt", 8, set("pouch depth", 27.), "inside only 11 mm of that are left between walls of 8 mm", "pouches stand out"},
		{"belt", 8, set("pouch depth", 28.), "", "pouches stand out"},
	} {
		o := pattern.Order{Name: "it", Template: c.template, Thickness: c.thick, Settings: c.settings, Units: units.MM}
		_, findings, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		var said string
		for _, f := range findings {
			if strings.Contains(f.Said, c.of) {
				said = f.Said
			}
		}
		if c.said == "" && said != "" || !strings.Contains(said, c.said) {
			t.Errorf("%s %v: %q, want %q", c.template, c.settings, said, c.said)
		}
	}
}

// A pair needs two of each, a mock-up needs what it will be built on; what would be
// bought backwards or by halves is refused where it is written.
func TestBought_pairsMockUpsAndSlips(t *testing.T) {
	form := drawBody(t, 4)
	const horns = "format: 1\ntitle: Fins\nabout: A fin.\ncode: F\ngoverns: []\nthickness: 5 mm\nframe: {free: true, pair: true}\nsettings:\n  long: {unit: mm, default: 90 mm, min: 10 mm, max: 200 mm, about: Its length.}\n" +
		"flats:\n  - {name: fin, facing: front, x: 50 mm, points: [[0, 0], [60 mm, 0], [0, long]]}\nbuy:\n  - {name: rod, length: long, count: 3, text: \"in the fin, {0.5 * long} deep\"}\n"
	build := func(src string, o pattern.Order) (*pattern.Set, error) {
		o.Name, o.Template = "fins", "fins"
		set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, fstest.MapFS{"fins.yaml": {Data: []byte(src)}}, form, pattern.Material{K: 0.5})
		return set, err
	}
	for _, mockUp := range []bool{false, true} {
		set, err := build(horns, pattern.Order{MockUp: mockUp})
		if err != nil {
			t.Fatal(err)
		}
		want := pattern.Bought{Name: "rod", Text: "in the fin, 45 mm deep", Count: 6, Long: 90}
		if p := set.Pieces[0]; p.Copies != 2 || len(p.Bought) != 1 || p.Bought[0] != want {
			t.Errorf("mock-up %v: %d copies, to buy %+v; want %+v", mockUp, p.Copies, p.Bought, want)
		}
	}
	for old, c := range map[string]struct{ new, want string }{
		"length: long, c": {"length: long - 200 mm, c", `to buy "rod": `},
		"count: 3":        {"count: 2.5", "the number of such things is 2.5; it must be a whole number"},
		"{0.5 * long}":    {"{long * long / (long - long)}", "has no value for this body and these settings"},
	} {
		_, err := build(strings.Replace(horns, old, c.new, 1), pattern.Order{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", c.new, err, c.want)
		}
	}
}
