package tile

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

var bodies = flag.Int("bodies", 6, "how many bodies the sweep draws from the survey")

// Every piece of the catalogue on bodies drawn from the survey, each on another
// paper: every place of every panel is printed once, panels keep apart, labels
// stand inside.
func TestSweep(t *testing.T) {
	survey := body.LoadSurvey()
	for i := range *bodies {
		paper := papers[i%len(papers)]
		t.Run(fmt.Sprintf("%d on %s", i, paper), func(t *testing.T) {
			sex := []body.Sex{body.Man, body.Woman, body.NotStated}[i%3]
			m, _, err := body.Estimate(survey, survey.Draw(sex, rand.New(rand.NewPCG(2, uint64(i)))), nil)
			if err != nil {
				t.Fatal(err)
			}
			form, _, err := body.NewForm(m, nil, body.Posture{})
			if err != nil {
				t.Fatal(err)
			}
			var orders []pattern.Order
			for _, name := range []string{"vambrace", "greave", "helm", "open-helmet"} {
				orders = append(orders, pattern.Order{Name: name, Template: name, Traced: pattern.Face(i % 3)})
			}
			set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{Thickness: []float64{0, 2, 5, 8, 10}[i%5], K: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			plan := laid(t, set, paper)
			checkPrintedOnce(t, plan, paper)
			checkWholeAndApart(t, plan, paper)
			checkAllLabels(t, plan, paper)
		})
	}
}
