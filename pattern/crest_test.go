package pattern_test

import (
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"
)

const wedge = `frame: {free: true}
rings:
  - {name: foot, at: 0, points: [[17 mm, 57 mm], [17 mm, -57 mm], [-17 mm, -57 mm], [-17 mm, 57 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]}
bands:
  - {name: side, from: foot, to: cap, seams: {at: [45 deg, 135 deg, 225 deg, 315 deg]}}
cap: {kind: ridge, at: 90 mm, across: 70 mm}
`

// A wedge on a base of a x b with a ridge of c along a, h high, has two sides of
// (a+c)/2 · sqrt(h² + (b/2)²) and two ends of b/2 · sqrt(h² + ((a-c)/2)²).
// Source: handbook formula of the wedge.
func TestMake_wedge(t *testing.T) {
	const a, b, c, h = 120.0, 40.0, 70.0, 90.0
	p := makeText(t, wedge)
	left := map[float64]int{
		(a + c) / 2 * math.Hypot(h, b/2): 2,
		b / 2 * math.Hypot(h, (a-c)/2):   2,
	}
	for i := range p.Panels {
		for want := range left {
			if math.Abs(geom.Area(p.Panels[i].Outline)-want) < 1e-6*want {
				left[want] -= p.Panels[i].Copies
			}
		}
	}
	for want, n := range left {
		if n != 0 {
			t.Errorf("%d panels of %.3f mm² are missing", n, want)
		}
	}
	ridges := 0
	for _, s := range p.Seams {
		if math.Abs(s.Length-c) < 1e-6 {
			ridges++
		}
	}
	if ridges != 1 {
		t.Errorf("%d seams are as long as the ridge, want 1", ridges)
	}
}

// Ridges over round rings, at either end, on pieces that are their own mirror
// image or open, along and across.
func TestMake_ridges(t *testing.T) {
	round := `frame: {free: true}
rings:
  - {name: low, at: 0, size: {width: 60 mm, depth: 120 mm}}
  - {name: high, at: 80 mm, size: {width: 40 mm, depth: 100 mm}}
bands:
  - {name: body, from: low, to: high, seams: {at: [0 deg, 180 deg], panels: [left, right]}}
`
	for name, yaml := range map[string]string{
		"toe":                round + "cap: {kind: ridge, at: 120 mm}\n",
		"across":             round + "cap: {kind: ridge, at: 120 mm, along: 90 deg, across: 30 mm}\n",
		"both ends":          round + "cap: {kind: ridge, at: 120 mm}\nbase: {kind: ridge, at: -50 mm, across: 60 mm}\n",
		"mirrored":           "mirror: true\n" + round + "cap: {kind: ridge, at: 120 mm, across: 50 mm}\n",
		"mirrored, across":   "mirror: true\n" + round + "cap: {kind: ridge, at: 120 mm, along: 90 deg}\n",
		"one seam":           strings.Replace(round, "seams: {at: [0 deg, 180 deg], panels: [left, right]}", "seams: {at: [180 deg]}", 1) + "cap: {kind: ridge, at: 120 mm}\n",
		"open":               "span: {from: -100 deg, to: 100 deg}\n" + strings.Replace(round, "seams: {at: [0 deg, 180 deg], panels: [left, right]}", "seams: {at: [0 deg]}", 1) + "base: {kind: ridge, at: -50 mm, along: 90 deg}\n",
		"its own band":       strings.Replace(wedge, "[45 deg, 135 deg, 225 deg, 315 deg]}}", "[0 deg, 180 deg]}}", 1),
		"longer than a ring": round + "cap: {kind: ridge, at: 120 mm, across: 180 mm}\n",
	} {
		p := makeText(t, yaml)
		top := 0.0
		for i := range p.Panels {
			for _, v := range p.Panels[i].Surface.Bent {
				top = max(top, v.Y)
			}
		}
		if want := map[bool]float64{true: 80, false: 120}[name == "open"]; name != "its own band" && math.Abs(top-want) > 1e-6 {
			t.Errorf("%s: the top lies at %.3f mm, want %.0f", name, top, want)
		}
	}
	for yaml, says := range map[string]string{
		round + "cap: {kind: ridge, at: 60 mm}\n":                                  `not above ring "high"`,
		round + "cap: {kind: ridge, at: 120 mm}\nbase: {kind: ridge, at: 10 mm}\n": `not below ring "low"`,
		round + "cap: {kind: ridge, at: 120 mm, across: 0 mm}\n":                   "0.0 mm long",
	} {
		if _, err := tryText(t, yaml); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("got %v; want an error that says %q", err, says)
		}
	}
}
