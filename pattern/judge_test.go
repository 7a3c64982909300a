package pattern

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"tasset/body"
	"tasset/templates"
)

// A visor is no draft for sizes by which the helmet under it is ready: it has that
// one's room. Where the room is less, both are drafts.
func TestDraft_ofWhatLiesOverAnother(t *testing.T) {
	s := body.LoadSurvey()
	tape := s.Draw(body.Man, rand.New(rand.NewPCG(1, 0)))
	tape.Entries = slices.DeleteFunc(tape.Entries, func(e body.Entry) bool {
		return slices.Contains([]body.Name{"head length", "head breadth", "face length", "face breadth", "ear to crown", "pupil distance"}, e.Name)
	})
	m, _, err := body.Estimate(s, tape, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	for padding, draft := range map[float64]bool{12: false, 5: true} {
		set, _, err := Make(context.Background(), []Order{
			{Name: "helmet", Template: "visored-helmet", Settings: map[string]Value{"padding": {Number: padding}}}, {Name: "visor", Template: "visor"},
		}, templates.FS, form, Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range set.Pieces {
			if p.Draft != draft {
				t.Errorf("%s with padding of %g mm: a draft is %t (%s), want %t", p.Name, padding, p.Draft, p.DraftWhy, draft)
			}
		}
	}
}
