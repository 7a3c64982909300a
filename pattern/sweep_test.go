package pattern_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/templates"
)

var bodies = flag.Int("bodies", 50, "how many bodies the sweep draws from the survey")

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
	for i := range *bodies {
		form := drawBody(t, i)
		m := pattern.Material{Thickness: []float64{0, 2, 5, 8, 10}[i%5], K: []float64{0.5, 0.6}[i%2]}
		for _, o := range sweepOrders {
			o.Traced = pattern.Face(i % 3)
			t.Run(fmt.Sprintf("%d/%s", i, o.Name), func(t *testing.T) {
				set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, m)
				if err != nil {
					t.Fatal(err)
				}
				p := &set.Pieces[0]
				pattern.CheckPiece(t, p)
				if p.Clearance < 0.98*p.Asked-0.05 {
					t.Errorf("the inner face comes within %.2f mm of the body; %.2f mm were asked for", p.Clearance, p.Asked)
				}
			})
		}
	}
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
