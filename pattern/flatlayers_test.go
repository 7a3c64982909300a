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

// The pommel's outer layers stand in the foot of the grip's wall, the one before and the
// other behind, on either side of the seam there. The middle one stands in its mouth and
// leaves no mark, and no line runs across the panel from one of its ends to the other.
func TestLayers_inTheFootOfTheGrip(t *testing.T) {
	set, _, err := Make(context.Background(), []Order{{Name: "blade", Template: "blade"}}, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	p := &set.Pieces[0]
	grip, pommel := &p.Panels[0], &p.Panels[6]
	wide := geom.Bounds(pommel.Outline)
	lines := map[string]int{}
	for _, m := range grip.Marks {
		if m.Kind != "line" {
			continue
		}
		lines[m.Text]++
		if long := geom.Length(m.Line); long > (wide.Max.X-wide.Min.X)*0.75 {
			t.Errorf("%q is %.0f mm long, of a pommel of %.0f", m.Text, long, wide.Max.X-wide.Min.X)
		}
	}
	const cut = " stands in here: cut the foam away up to this line"
	if len(lines) != 2 || lines["BL7 pommel in front"+cut] != 1 || lines["BL9 pommel behind"+cut] != 2 {
		t.Errorf("on the grip: %v", lines)
	}
	for _, m := range p.Panels[7].Marks {
		if strings.Contains(m.Text, "under here") {
			t.Errorf("%s says %q", p.Panels[7].Label, m.Text)
		}
	}
}
