package pattern

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"
)

// The layers of a sword know which lies on which; the core shows how far its faces
// reach, and the guard where the tang goes. Walls of a box and what lies beside one
// another do not lie on each other.
func TestLayers_ofASword(t *testing.T) {
	for _, style := range []string{"straight", "leaf", "falchion"} {
		set, _, err := Make(context.Background(), []Order{{Name: "blade", Template: "blade", Settings: map[string]Value{"style": {Typed: style}}}, {Name: "belt", Template: "belt"}},
			templates.FS, drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		if belt := &set.Pieces[1]; len(belt.Laid) > 0 {
			t.Errorf("the belt has layers: %v", belt.Laid)
		}
		p := &set.Pieces[0]
		var said []string
		for _, l := range p.Laid {
			face := " inside "
			if l.Outside {
				face = " outside "
			}
			said = append(said, p.Panels[l.Over].Label+face+p.Panels[l.Under].Label)
		}
		if want := []string{"BL3 outside BL2", "BL4 inside BL2", "BL5 outside BL2", "BL6 inside BL2", "BL8 inside BL7", "BL9 inside BL8"}; !slices.Equal(said, want) {
			t.Errorf("layers %q, want %q", said, want)
		}
		core, face := &p.Panels[1], &p.Panels[2]
		area, want := 0.0, math.Abs(geom.Area(face.Outline)) // its straight foot is left on either side of the rod's slot
		for _, m := range core.Marks {
			if strings.HasPrefix(m.Text, "BL3 ") && strings.Contains(m.Text, ", on the outside, and BL4 ") && strings.HasSuffix(m.Text, ", on the inside") {
				area += math.Abs(geom.Area(m.Line))
			}
		}
		if math.Abs(area/want-1) > 0.002 {
			t.Errorf("%s: the lines on the core go round %.0f mm², and the face has %.0f", style, area, want)
		}
		for _, guard := range p.Panels[4:6] {
			if !slices.ContainsFunc(guard.Marks, func(m Mark) bool {
				return strings.HasPrefix(m.Text, "BL2 ") && strings.HasSuffix(m.Text, ", on the inside")
			}) {
				t.Errorf("%s does not show the tang: %+v", guard.Name, guard.Marks)
			}
		}
	}
}
