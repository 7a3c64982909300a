package pattern_test

import (
	"strings"
	"testing"
)

// Openings that overlap at the edge of a panel are refused by name, whether one
// enters and leaves within the other or crosses it: the outline would cross itself.
func TestOpenings_overlap(t *testing.T) {
	const at = `frame: {free: true}
rings:
  - {name: low, at: 0, size: {width: 120 mm, depth: 120 mm}}
  - {name: high, at: 100 mm, size: {width: 120 mm, depth: 120 mm}}
bands:
  - {name: wall, from: low, to: high, seams: {at: [-90 deg, 90 deg], panels: [front, back]}}
openings:
  - {name: one, view: front, points: [[-30 mm, 20 mm], [10 mm, 20 mm], [10 mm, 50 mm], [-30 mm, 50 mm]]}
  - {name: other, view: front, points: [[LEFT, UP], [40 mm, UP], [40 mm, 120 mm], [LEFT, 120 mm]]}
`
	for _, c := range []struct {
		left, up string
		refused  bool
	}{{"-10 mm", "40 mm", true}, {"-10 mm", "60 mm", false}, {"20 mm", "40 mm", false}} {
		_, err := tryText(t, strings.NewReplacer("LEFT", c.left, "UP", c.up).Replace(at))
		if refused := err != nil; refused != c.refused {
			t.Errorf("from %s, %s: %v, want refused %v", c.left, c.up, err, c.refused)
		}
		if err != nil && !strings.Contains(err.Error(), `the opening "other" and the opening "one" run into each other`) {
			t.Error(err)
		}
	}
}
