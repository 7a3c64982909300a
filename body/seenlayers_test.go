package body

import (
	"math"
	"strings"
	"testing"
)

// Hair of 5 mm, by arithmetic: 10 mm off a breadth, 5 mm off length and crown,
// and the same doubt of 30 % in all of them.
func TestEstimate_takesHairOffPhotographs(t *testing.T) {
	seen := &Seen{
		Names:      []Name{"head length", "head breadth", "ear to crown", "face length"},
		Values:     []float64{200, 160, 135, 118},
		Covariance: []float64{4, 0, 0, 0, 0, 4, 0, 0, 0, 0, 4, 0, 0, 0, 0, 4},
		Over:       []string{"hair", "hair", "hair", "hair"},
	}
	tape := Tape{Layers: []Layer{{Name: "hair", Thickness: 5, Segments: []Segment{Head}}}}
	m, _, err := Estimate(LoadSurvey(), tape, seen)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      Name
		value, sd float64
	}{{"head length", 195, math.Hypot(2, 1.5)}, {"head breadth", 150, math.Hypot(2, 3)}, {"ear to crown", 130, math.Hypot(2, 1.5)}, {"face length", 118, 2}} {
		got, _ := m.Get(c.name, Both)
		if math.Abs(got.Value-c.value) > 1e-6 || math.Abs(got.SD-c.sd) > 1e-6 || got.Over != "hair" {
			t.Errorf("%s is %.3f ± %.3f over %q, want %.3f ± %.3f over hair", c.name, got.Value, got.SD, got.Over, c.value, c.sd)
		}
	}
	if got := m.Cov("head length", "head breadth"); math.Abs(got-1.5*3) > 1e-6 {
		t.Errorf("the hair's doubt is common: covariance %.3f, want 4.5", got)
	}
	if seen.Values[0] != 200 {
		t.Error("what the photographs told was changed")
	}
}

func TestEstimate_refusesPhotographsOverAnUnknownLayer(t *testing.T) {
	seen := &Seen{Names: []Name{"head length"}, Values: []float64{200}, Covariance: []float64{4}, Over: []string{"hood"}}
	_, _, err := Estimate(LoadSurvey(), Tape{}, seen)
	if err == nil || !strings.Contains(err.Error(), "hood") || !strings.Contains(err.Error(), "wears") {
		t.Errorf("got %v, want an error that names the layer and where to add it", err)
	}
}
