package pattern_test

import (
	"math"
	"strings"
	"testing"

	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// turnedPlate is a tube of radius 50 mm that is open behind, cut off above a slope that
// is drawn from the front. Its free edges stand at an angle of AWAY past what is seen.
const turnedPlate = `frame: {free: true}
span: {from: -90 deg - AWAY, to: 90 deg + AWAY}
rings:
  - {name: low, at: 0, size: {width: 100 mm, depth: 100 mm}}
  - {name: high, at: 150 mm, size: {width: 100 mm, depth: 100 mm}}
bands:
  - {name: wall, from: low, to: high, SEAMS}
openings:
  - name: slope
    view: front
    points: [[-200 mm, 40 mm], [200 mm, 120 mm], [200 mm, 400 mm], [-200 mm, 400 mm]]
`

// An opening is carried on straight over what is turned away at a free edge: where a
// tube is seen from the side, its unrolled line runs level, so it comes to the edge
// at the level at which it was last seen.
func TestOpening_carriedOnToAFreeEdge(t *testing.T) {
	p := makeText(t, strings.NewReplacer("AWAY", "15 deg", "SEAMS", "seams: {at: [0 deg]}").Replace(turnedPlate))
	var ends []r3.Vec
	for i := range p.Panels {
		for _, e := range p.Panels[i].Edges {
			if e.Kind != pattern.Opening {
				continue
			}
			for _, q := range e.Line {
				if at := p.Panels[i].Surface.Lift(q); math.Abs(math.Abs(math.Atan2(at.X, at.Z))-105*math.Pi/180) < 1e-6 {
					ends = append(ends, at)
				}
			}
		}
	}
	if len(ends) != 2 {
		t.Fatalf("the opening comes to free edges at %v; there are two", ends)
	}
	for _, at := range ends {
		if want := 80 + 0.2*math.Copysign(math.Hypot(at.X, at.Z), at.X); math.Abs(at.Y-want) > 0.5 {
			t.Errorf("it comes to the edge at a level of %.2f mm; %.2f is where it was last seen", at.Y, want)
		}
	}
}

// Over a seam, whose other side is not cut, and far round, it is not carried on.
func TestOpening_notCarriedOn(t *testing.T) {
	for what, r := range map[string]*strings.Replacer{
		"a seam": strings.NewReplacer("AWAY", "30 deg", "SEAMS", "seams: {at: [-100 deg, 0 deg, 100 deg]}"),
		"far":    strings.NewReplacer("AWAY", "60 deg", "SEAMS", "seams: {at: [0 deg]}"),
	} {
		if _, err := tryText(t, r.Replace(turnedPlate)); err == nil || !strings.Contains(err.Error(), "cannot be seen") {
			t.Errorf("%s: %v", what, err)
		}
	}
}
