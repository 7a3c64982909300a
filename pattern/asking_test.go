package pattern

import (
	"context"
	"reflect"
	"testing"

	"tasset/templates"
)

// What is asked is told by the ways that the templates name, with the pads: a helm's
// 4, 12 and 6 mm and 10 mm of padding.
func TestAskings(t *testing.T) {
	for name, want := range map[string][]Asking{
		"helm":      {{[]string{"top"}, 16}, {[]string{"front"}, 22}, {nil, 14}},
		"backplate": {{[]string{"left", "right"}, 6}, {nil, 12}},
		"greave":    nil,
	} {
		set, _, err := Make(context.Background(), []Order{{Name: name, Template: name}}, templates.FS, drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		if !reflect.DeepEqual(p.Askings, want) {
			t.Errorf("%s: %v, want %v", name, p.Askings, want)
		}
		for _, a := range p.Askings {
			if a.Room < p.Asked {
				t.Errorf("%s: %g mm are asked at %v, and %g mm at the least", name, a.Room, a.Ways, p.Asked)
			}
		}
	}
}
