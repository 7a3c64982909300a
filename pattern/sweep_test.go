package pattern_test

import (
	"context"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/pattern/template"
	"tasset/templates"
)

var (
	bodies = flag.Int("bodies", 50, "how many bodies the sweep draws from the survey")
	beyond = flag.Int("beyond", 4, "how many bodies the sweep makes that the survey does not reach")
	first  = flag.Int("first", 0, "the first of them, to go on where a sweep was left")
	only   = flag.String("only", "", "sweep only this template")
)

// catalogue lists all templates.
func catalogue(t testing.TB) []string {
	t.Helper()
	files, err := fs.Glob(templates.FS, "*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no templates: %v", err)
	}
	var out []string
	for _, f := range files {
		if name := strings.TrimSuffix(f, ".yaml"); *only == "" || name == *only {
			out = append(out, name)
		}
	}
	return out
}

// ordersFor are a piece after all pieces that it lies over or follows.
func ordersFor(t testing.TB, name string) []pattern.Order {
	t.Helper()
	var out []pattern.Order
	done := map[string]bool{}
	var add func(name string)
	add = func(name string) {
		if done[name] {
			return
		}
		done[name] = true
		tpl, err := template.Load(templates.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		shapes := []*template.Template{tpl}
		for _, l := range tpl.Layouts() {
			shapes = append(shapes, tpl.Resolve(l))
		}
		for _, s := range shapes {
			if s.Frame.Over != "" {
				add(s.Frame.Over)
			}
		}
		for _, f := range tpl.Flats {
			if f.Follow != nil {
				add(f.Follow.Piece)
			}
		}
		out = append(out, pattern.Order{Name: name, Template: name})
	}
	add(name)
	return out
}

// Every piece on bodies drawn from the survey and on some that it does not
// reach, each with a posture, a thickness and settings of its own: what must be true of
// every piece is, and the foam keeps its distance.
func TestSweep(t *testing.T) {
	for i := *first; i < *first+*bodies; i++ {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			sweep(t, standingSo(t, drawTape(i), ownPosture(i)), i)
		})
	}
}

func TestSweep_beyondTheSurvey(t *testing.T) {
	for i := *first; i < *first+*beyond; i++ {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			form, build := beyondSurvey(t, i)
			t.Log(build)
			sweep(t, form, i)
		})
	}
}

// sweep makes every piece of the catalogue on a body.
func sweep(t *testing.T, form *body.Form, i int) {
	m := pattern.Material{Thickness: []float64{0, 2, 5, 8, 10}[i%5], K: []float64{0.5, 0.6}[i%2], Density: 100}
	for _, name := range catalogue(t) {
		t.Run(name, func(t *testing.T) {
			orders := ordersFor(t, name)
			last := &orders[len(orders)-1]
			last.Traced = pattern.Face(i % 3)
			last.Settings = settingsFor(t, *last, i)
			set, found, err := pattern.Make(context.Background(), orders, templates.FS, form, m)
			if err != nil {
				t.Fatalf("%v\nsettings %v", err, last.Settings)
			}
			for k := range set.Pieces {
				if p := &set.Pieces[k]; p.Template == name {
					checkSwept(t, p, found)
				}
			}
			if t.Failed() {
				t.Logf("settings %v, thickness %g, stands %+v", last.Settings, m.Thickness, ownPosture(i))
			}
		})
	}
}

// checkSwept holds a piece to what must be true of every piece, and to the
// distance that it asked for.
func checkSwept(t *testing.T, p *pattern.Piece, found []report.Finding) {
	t.Helper()
	pattern.CheckPiece(t, p)
	if asked := p.Asked + p.Reserve(); p.Clearance < 0.99*asked {
		t.Errorf("the inner face comes within %.2f mm of the body; %.2f mm were asked for", p.Clearance, asked)
	}
	if p.Passing < 0.99*p.PassAsked {
		t.Errorf("the inner face comes within %.2f mm of what it passes; %.2f mm were asked for", p.Passing, p.PassAsked)
	}
	if len(p.Panels) == 0 {
		t.Error("it has no panels")
	}
	if !p.MockUp && !(p.Weight > 0) {
		t.Errorf("it weighs %g kg", p.Weight)
	}
	checkStrain(t, p, found)
	checkSides(t, p)
}

// checkStrain wants a finding about each formed panel that must stretch or
// gather by more than foam does.
func checkStrain(t *testing.T, p *pattern.Piece, found []report.Finding) {
	t.Helper()
	const stretch, gather = 0.10, 0.05 // reference table: with care; above it foam thins, or buckles
	for i := range p.Panels {
		f := p.Panels[i].Formed
		if f == nil || f.Stretch.P95 <= stretch && f.Gather.P95 <= gather {
			continue
		}
		told := false
		for _, r := range found {
			told = told || r.Subject == p.Name && (strings.Contains(r.Said, "stretch") || strings.Contains(r.Said, "gather"))
		}
		if !told {
			t.Errorf("%s must stretch by %.1f %% and gather by %.1f %%, and nothing says so", p.Panels[i].Label, 100*f.Stretch.P95, 100*f.Gather.P95)
		}
	}
}

// settingsFor spreads the settings of body i over their ranges; body 0 keeps
// the defaults.
func settingsFor(t testing.TB, o pattern.Order, i int) map[string]pattern.Value {
	t.Helper()
	tpl, err := template.Load(templates.FS, o.Template)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]pattern.Value{}
	for name, v := range o.Settings {
		out[name] = v
	}
	for k, s := range tpl.Settings {
		if _, set := out[s.Name]; set || i == 0 {
			continue
		}
		_, share := math.Modf(float64(i)*0.6180339887 + float64(k)*0.7548776662)
		if len(s.Choices) > 0 {
			out[s.Name] = pattern.Value{Typed: s.Choices[int(share*float64(len(s.Choices)))]}
			continue
		}
		v := s.Min + share*(s.Max-s.Min)
		if s.Unit == "count" {
			v = math.Round(v)
		}
		out[s.Name] = pattern.Value{Number: v, Typed: fmt.Sprint(v)}
	}
	return out
}

// Of a child nothing that governs a piece is estimated, so that every piece that
// hangs on a size is a draft until it is measured.
func TestMake_childIsADraft(t *testing.T) {
	form := formOf(t, body.Tape{Age: 10, Entries: []body.Entry{{Name: "stature", Value: 1380}, {Name: "weight", Value: 32}}})
	for _, name := range catalogue(t) {
		tpl, err := template.Load(templates.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(tpl.Governs, func(n body.Name) bool { return n != "stature" && n != "weight" }) {
			continue // all that it hangs on is measured
		}
		set, _, err := pattern.Make(context.Background(), ordersFor(t, name), templates.FS, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for k := range set.Pieces {
			if p := &set.Pieces[k]; p.Template == name && !p.Draft {
				t.Errorf("%s hangs on %v and is no draft for a child whose stature and weight alone are known", name, tpl.Governs)
			}
		}
	}
}

func BenchmarkMake_onePiece(b *testing.B) {
	form := drawBody(b, 0)
	for _, name := range catalogue(b) {
		orders := ordersFor(b, name)
		b.Run(name, func(b *testing.B) {
			for range b.N {
				if _, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
