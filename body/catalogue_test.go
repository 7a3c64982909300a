package body_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"tasset/body"
)

func TestCatalogue(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range body.Catalogue() {
		if seen[d.Name.Ident()] {
			t.Errorf("%s comes twice", d.Name)
		}
		seen[d.Name.Ident()] = true
		if !strings.HasSuffix(d.HowTo, ".") || d.TapeSD <= 0 || string(d.Name) != strings.ToLower(string(d.Name)) {
			t.Errorf("%s is not fully described: %+v", d.Name, d)
		}
		if n, ok := body.NameOf(d.Name.Ident()); !ok || n != d.Name {
			t.Errorf("%s does not come back from %s", d.Name, d.Name.Ident())
		}
		if got := body.Suggest(string(d.Name)); got != d.Name {
			t.Errorf("Suggest(%q) = %q", d.Name, got)
		}
	}
}

func TestSuggest(t *testing.T) {
	for typo, want := range map[string]body.Name{
		"wirst girth": "wrist girth", "Head Circumference": "head girth", "height": "stature", "forearm_girth": "forearm girth flexed",
		"bust girth": "chest girth", "hip circumferance": "hip girth", "shoulder width": "shoulder breadth", "knee": "knee girth",
		"banana": "", "zzz": "",
	} {
		if got := body.Suggest(typo); got != want {
			t.Errorf("Suggest(%q) = %q, want %q", typo, got, want)
		}
	}
}

// A crowd drawn from the model has its mean and deviation: stature of men is
// 1756.2 (68.6) in the survey's published tables, within four standard errors.
func TestDraw_isLikeTheSurvey(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	const n = 4000
	var sum float64
	for range n {
		sum += body.LoadSurvey().Draw(body.Man, chance).Entries[0].Value
	}
	near(t, "mean stature", sum/n, 1756.2, 4*68.6/63.2)
}
