package pattern_test

import (
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// The two strips of hook-and-loop meet when the piece is closed: one lies on
// the lap, the other as far inside the edge that the lap covers.
func TestMake_hookAndLoopMeets(t *testing.T) {
	p := makeOne(t, drawBody(t, 5), pattern.Order{Name: "vambrace", Template: "vambrace", Side: body.Left})
	found := map[string]bool{}
	for i := range p.Panels {
		for _, e := range p.Panels[i].Edges {
			if e.Kind != pattern.Closure {
				continue
			}
			from, along := e.Line[0], r2.Unit(r2.Sub(e.Line[len(e.Line)-1], e.Line[0]))
			for _, m := range p.Panels[i].Marks {
				if m.Kind != "fastening" {
					continue
				}
				face, least, most := "outside", 5.0, 37.0 // inside a straight edge, mm
				if e.Allowance > 0 {
					face, least, most = "inside", -37, -5
				}
				found[face] = true
				if want := map[string]string{"inside": "on the inside: loops", "outside": "on the outside: hooks"}[face]; !strings.HasSuffix(m.Text, want) {
					t.Errorf("%s: the strip says %q", p.Panels[i].Label, m.Text)
				}
				for _, v := range m.Line {
					if d := r2.Cross(along, r2.Sub(v, from)); d < least || d > most {
						t.Errorf("%s: a corner of the strip lies %.1f mm inside the seam line", p.Panels[i].Label, d)
					}
				}
			}
		}
	}
	if !found["inside"] || !found["outside"] {
		t.Errorf("found strips on %v; want one on either face", found)
	}
}
