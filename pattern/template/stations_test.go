package template_test

import (
	"slices"
	"testing"

	"tasset/body"
	"tasset/pattern/template"
)

// The language's station names are those of the body form: every station of
// every part is known to formulas, and no other.
func TestStations_areTheForms(t *testing.T) {
	m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Age: 30, Entries: []body.Entry{{Name: "stature", Value: 1750}, {Name: "weight", Value: 75}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range form.Parts() {
		var has []string
		for _, s := range p.Stations {
			has = append(has, body.Name(s.Name).Ident())
		}
		known := template.Stations(p.Segment)
		for _, s := range has {
			if !slices.Contains(known, s) {
				t.Errorf("%s: the form has the station %s, which formulas do not know", p.Segment, s)
			}
		}
		for _, s := range known {
			if !slices.Contains(has, s) {
				t.Errorf("%s: formulas know the station %s, which the form does not have", p.Segment, s)
			}
		}
	}
}
