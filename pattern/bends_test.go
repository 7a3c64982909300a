package pattern

import (
	"context"
	"math"
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/templates"
)

// A panel that is bent to an arc of a circle stands as far apart as its chord and before
// it by its sagitta r·(1-cos(a/2)) (source: plane geometry). A half of the heater shield
// is half of an arc of chord w and bow 0.25 w, without a keel.
func TestBends(t *testing.T) {
	settings := map[string]Value{"width": {Number: 600}, "bow": {Number: 0.25}, "crease": {Number: 0}, "dip": {Number: 0}}
	set, _, err := Make(context.Background(), []Order{{Name: "shield", Template: "heater-shield", Settings: settings}}, templates.FS, drawnForm(t), Material{Thickness: 10, K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	radius := 600*(0.25/0.25+0.25)/2 + 5 // of the middle of the foam
	half := math.Asin(1 / (0.25/0.25 + 0.25))
	chord, sagitta := 2*radius*math.Sin(half/2), radius*(1-math.Cos(half/2))
	span, bow := set.Pieces[0].Panels[0].bow()
	if math.Abs(span-chord) > 0.02*chord || math.Abs(bow-sagitta) > 0.05*sagitta {
		t.Errorf("it is bent to %.1f mm and %.1f mm; want %.1f mm and %.1f mm", span, bow, chord, sagitta)
	}
	want := "until its sides stand " + units.Format(span, units.None) + " apart, straight across, and its middle " + units.Format(bow, units.None) + " before them."
	if notes := strings.Join(set.Pieces[0].Panels[0].Notes, "\n"); !strings.Contains(notes, want) {
		t.Errorf("its notes are %q; want %q", notes, want)
	}
}
