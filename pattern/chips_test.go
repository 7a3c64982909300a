package pattern_test

import (
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/pattern"
)

// bittenWall is a wall of two panels, 130 mm high, of which an opening from below
// leaves the narrow one no more than TOP mm high.
const bittenWall = `frame: {free: true}
span: {from: -60 deg, to: 60 deg}
rings:
  - {name: low, at: 0, size: {width: 100 mm, depth: 100 mm}}
  - {name: high, at: 130 mm, size: {width: 100 mm, depth: 100 mm}}
bands:
  - {name: wall, from: low, to: high, seams: {at: [40 deg], panels: [broad, narrow]}}
openings:
  - name: bite
    view: left
    points: [[-100 mm, -20 mm], [45 mm, -20 mm], [45 mm, 130 mm - TOP], [-100 mm, 130 mm - TOP]]
layers:
  - {name: trim, along: bite, width: 5 mm, thickness: 2 mm}
`

// Of a panel that an opening leaves next to nothing of, nothing is made, and its
// neighbour ends at the opening; of one that it leaves more of, the rest stays.
func TestMake_noChips(t *testing.T) {
	for top, want := range map[string]int{"9 mm": 1, "40 mm": 2} {
		p := makeText(t, strings.ReplaceAll(bittenWall, "TOP", top))
		shell, seams := 0, 0
		for i := range p.Panels {
			switch q := &p.Panels[i]; q.Role {
			case pattern.OfShell:
				shell++
				for _, e := range q.Edges {
					if e.Seam > 0 {
						seams++
					}
				}
			case pattern.Strip:
				if e := geom.Perimeter(q.Outline) / 2; e < 15 {
					t.Errorf("%s: a trim %s goes round %.0f mm of an edge", top, q.Label, e)
				}
			}
		}
		if shell != want || seams != 2*(want-1) {
			t.Errorf("%s are left of the narrow panel: %d panels with %d seam edges; want %d", top, shell, seams, want)
		}
	}
}
