package pattern_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/pattern/template"
	"tasset/templates"
)

var (
	bodies = flag.Int("bodies", 50, "how many bodies the sweep draws from the survey")
	first  = flag.Int("first", 0, "the first of them, to go on where a sweep was left")
)

// pieces of the sweep, each with settings that change its panels.
var sweepOrders = []pattern.Order{
	{Name: "vambrace", Template: "vambrace"},
	{Name: "greave", Template: "greave"},
	{Name: "helm", Template: "helm"},
	{Name: "gores", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}}},
	{Name: "strips", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "strips"}}},
}

// drawBody makes a form of a body drawn from the survey's model.
func drawBody(t testing.TB, i int) *body.Form {
	t.Helper()
	s := body.LoadSurvey()
	sex := []body.Sex{body.Man, body.Woman, body.NotStated}[i%3]
	m, _, err := body.Estimate(s, s.Draw(sex, rand.New(rand.NewPCG(1, uint64(i)))), nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	return form
}

// Every piece on bodies drawn from the survey, each with a thickness of its
// own: what must be true of every piece is, and the foam keeps its distance.
func TestSweep(t *testing.T) {
	for i := *first; i < *first+*bodies; i++ {
		form := drawBody(t, i)
		m := pattern.Material{Thickness: []float64{0, 2, 5, 8, 10}[i%5], K: []float64{0.5, 0.6}[i%2]}
		for _, o := range sweepOrders {
			o.Traced = pattern.Face(i % 3)
			o.Settings = settingsFor(t, o, i)
			t.Run(fmt.Sprintf("%d/%s", i, o.Name), func(t *testing.T) {
				set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, m)
				if err != nil {
					t.Fatal(err)
				}
				p := &set.Pieces[0]
				pattern.CheckPiece(t, p)
				if p.Clearance < 0.98*p.Asked {
					t.Errorf("the inner face comes within %.2f mm of the body; %.2f mm were asked for", p.Clearance, p.Asked)
				}
			})
		}
	}
}

// settingsFor spreads the settings of body i over their ranges; body 0 keeps
// the defaults.
func settingsFor(t *testing.T, o pattern.Order, i int) map[string]pattern.Value {
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
		if i == 0 || s.Unit == "choice" {
			continue
		}
		_, share := math.Modf(float64(i)*0.6180339887 + float64(k)*0.7548776662)
		v := s.Min + share*(s.Max-s.Min)
		if s.Unit == "count" {
			v = math.Round(v)
		}
		out[s.Name] = pattern.Value{Number: v, Typed: fmt.Sprint(v)}
	}
	return out
}

func BenchmarkMake_onePiece(b *testing.B) {
	form := drawBody(b, 0)
	for _, o := range sweepOrders {
		b.Run(o.Name, func(b *testing.B) {
			for range b.N {
				if _, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{K: 0.5}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
