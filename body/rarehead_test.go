package body_test

import (
	"strings"
	"testing"

	"tasset/body"
)

// A rare head is told of in the unit in which its girth was typed.
func TestEstimate_tellsOfARareHeadInItsUnit(t *testing.T) {
	for typed, want := range map[string]string{
		"65.4 cm": "between 51.0 cm and 64.0 cm", "25 3/4 in": "between 20 1/8 in and 25 1/4 in", "654 mm": "between 510 mm and 640 mm", "": "between 510 mm and 640 mm",
	} {
		e := entry("head girth", 654)
		e.Typed = typed
		_, found, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: body.Man, Entries: []body.Entry{entry("stature", 1780), e}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, f := range found {
			if strings.Contains(f.Said, "is rare") {
				said = f.Said
			}
		}
		if !strings.Contains(said, want) {
			t.Errorf("typed %q: %q, want %q", typed, said, want)
		}
	}
}
