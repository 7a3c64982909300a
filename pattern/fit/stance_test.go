package fit_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/templates"
)

// "I hold my shoulders back, and the backplate came through the gorget." What is drawn
// over the plates of the trunk goes with shoulders that stand farther back or forward.
func TestCheck_gorgetLiesOverThePlatesHoweverOneStands(t *testing.T) {
	for _, stands := range []body.Posture{
		{},
		{ShouldersForward: -15, ShouldersKnown: true},
		{ShouldersForward: -25, ShouldersKnown: true},
		{ShouldersForward: 25, ShouldersKnown: true},
		{ChestForward: -35, WaistForward: -10},
		{ChestForward: -35, WaistForward: -10, ShouldersForward: -15, ShouldersKnown: true},
	} {
		t.Run(fmt.Sprintf("%+v", stands), func(t *testing.T) {
			form, _, err := body.NewForm(wearer(t).Measurements(), nil, stands)
			if err != nil {
				t.Fatal(err)
			}
			orders := []pattern.Order{{Name: "backplate", Template: "backplate"}, {Name: "breastplate", Template: "breastplate"}, {Name: "gorget", Template: "gorget"}}
			set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			for _, g := range fit.Clashes(set) {
				if strings.Contains(g.Said, "gorget") {
					t.Error(g)
				}
			}
		})
	}
}
