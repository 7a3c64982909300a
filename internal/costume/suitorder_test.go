package costume

import (
	"context"
	"slices"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/templates"
)

// The default suit's file lists its pieces as the program says to put them on.
func TestSuit_isInTheOrderOfDressing(t *testing.T) {
	m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: body.Woman, Age: 30, Entries: []body.Entry{{Name: "stature", Value: 1700}, {Name: "weight", Value: 65}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	var orders []pattern.Order
	for _, name := range Suit() {
		orders = append(orders, pattern.Order{Name: name, Template: name})
	}
	set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(set.Dressing, Suit()) {
		t.Errorf("the file lists %v, and one dresses %v", Suit(), set.Dressing)
	}
}
