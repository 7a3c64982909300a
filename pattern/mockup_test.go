package pattern_test

import (
	"strings"
	"testing"

	"tasset/pattern"
	"tasset/templates"
)

// Card has no bevels and is not grooved.
func TestMockUp_isScoredAndCutSquare(t *testing.T) {
	p, _, err := madeFor(pattern.Order{Name: "sabaton", Template: "sabaton", MockUp: true}, templates.FS, drawBody(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	folds := 0
	for _, panel := range p.Panels {
		for _, e := range panel.Edges {
			if e.Bevel != (pattern.Bevel{}) {
				t.Errorf("an edge of %s in card has a bevel of %v", panel.Label, e.Bevel)
			}
		}
		for _, f := range panel.Folds {
			folds++
			if f.Kind != "scored" && f.Kind != "bent" {
				t.Errorf("a fold of %s in card is %s", panel.Label, f.Kind)
			}
		}
	}
	if folds == 0 {
		t.Error("no panel has a fold")
	}
}

// Card must not be heated: a mock-up of a formed piece says nothing of heat.
func TestMockUp_ofFormedPanels(t *testing.T) {
	p, findings, err := madeFor(pattern.Order{Name: "cap", Template: "skull-cap", MockUp: true}, templates.FS, drawBody(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range findings {
		if strings.Contains(f.Said, "heat") || strings.Contains(f.Said, "stretch") {
			t.Errorf("of a piece in card it is found: %s", f.Said)
		}
	}
	said := 0
	for _, panel := range p.Panels {
		if panel.Formed != nil {
			t.Errorf("%s of card is to be formed", panel.Label)
		}
		for _, m := range panel.Marks {
			if m.Kind == pattern.MarkStretch || m.Kind == pattern.MarkGather {
				t.Errorf("%s of card says %q", panel.Label, m.Text)
			}
		}
		for _, n := range panel.Notes {
			if strings.Contains(n, "card only bends") {
				said++
			}
		}
	}
	if said == 0 {
		t.Error("nothing says what card cannot show")
	}
}
