package pattern

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

// The gorget's halves meet behind over a tongue, whose size is told: as long as the
// edges in the middle of the back are in space. What laps needs none.
func TestTongue_isToldWithItsSize(t *testing.T) {
	form := drawnForm(t)
	for _, template := range []string{"gorget", "vambrace"} {
		set, _, err := Make(context.Background(), []Order{{Name: template, Template: template, Units: units.MM}}, templates.FS, form, Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		notes := strings.Join(p.Notes, " ")
		if template == "vambrace" {
			if strings.Contains(notes, "Tongue") {
				t.Errorf("the vambrace laps, and says %q", notes)
			}
			continue
		}
		long := 0.0
		for i := range p.Panels {
			behind := func(v r3.Vec) bool { return p.Panels[i].Role == OfShell && math.Abs(v.X) < 0.1 && v.Z < 0 }
			for _, e := range p.Panels[i].Edges {
				for k := range len(e.Line) - 1 {
					if a, z := p.Panels[i].Surface.Lift(e.Line[k]), p.Panels[i].Surface.Lift(e.Line[k+1]); behind(a) && behind(z) {
						long += geom.Dist(a, z)
					}
				}
			}
		}
		if want := fmt.Sprintf("%.0f mm long and 70 mm wide", long); !strings.Contains(notes, want) {
			t.Errorf("%q does not tell of a tongue %s", notes, want)
		}
		if s := p.Sheets; len(s) != 1 || s[0].Name != "tongue" || s[0].Count != 1 || math.Abs(s[0].Long-long) > 0.5 || s[0].Broad != 70 {
			t.Errorf("parts without a template: %+v, want the tongue, %.0f by 70 mm", s, long)
		}
		strips := 0
		for i := range p.Panels {
			for _, m := range p.Panels[i].Marks {
				if strings.HasPrefix(m.Text, "hook-and-loop") {
					strips++
					if p.Panels[i].Flipped == 0 || !strings.HasSuffix(m.Text, "glue the tongue here; on the copy turned over: the loops, inside") {
						t.Errorf("%s says %q", p.Panels[i].Label, m.Text)
					}
				}
			}
		}
		if strips == 0 {
			t.Error("no strip of hook-and-loop")
		}
	}
}
