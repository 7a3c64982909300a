package pattern_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

const frustumRings = `rings:
  - {name: low, at: LOW, size: {width: 120 mm, depth: 80 mm}}
  - {name: high, at: HIGH, size: {width: 60 mm, depth: 70 mm, z: 5 mm}}
bands:
  - {name: side, from: low, to: high, seams: {at: [30 deg, 200 deg]}}
cap: {kind: plate}
`

// Along a straight spine a piece is the one of a straight axis.
func TestMake_straightSpine(t *testing.T) {
	rings := func(low, high string) string {
		return strings.NewReplacer("LOW", low, "HIGH", high).Replace(frustumRings)
	}
	plain := makeText(t, "frame: {free: true}\n"+rings("10 mm", "90 mm"))
	for _, spine := range []string{
		"[{name: a, x: 0, y: 10 mm}, {name: b, x: 0, y: 90 mm}]",
		"[{name: a, x: 0, y: 10 mm}, {name: m, x: 0, y: 30 mm}, {name: b, x: 0, y: 90 mm}]",
		"[{name: a, x: 7 mm, y: 9 mm, z: 5 mm}, {name: m, x: 31 mm, y: 41 mm, z: 5 mm}, {name: b, x: 55 mm, y: 73 mm, z: 5 mm}]", // leans to the side
	} {
		p := makeText(t, "frame: {free: true, spine: "+spine+"}\n"+rings("a", "b"))
		if len(p.Panels) != len(plain.Panels) {
			t.Fatalf("%d panels, want %d", len(p.Panels), len(plain.Panels))
		}
		for i := range p.Panels {
			for j, e := range p.Panels[i].Edges {
				if want := plain.Panels[i].Edges[j].Length; math.Abs(e.Length-want) > 1e-6 {
					t.Errorf("%s: edge %d of panel %d is %.6f mm, want %.6f", spine, j, i+1, e.Length, want)
				}
			}
		}
	}
}

// Sections of a torus: rings of radius r stand square to a circle of radius R, a
// degrees apart, so the straight foam between them measures 2(R+r)·sin(a/2) on
// the outer side, 2(R-r)·sin(a/2) on the inner one and 2R·sin(a/2) beside.
// Source: chords of circles.
func TestMake_torusSections(t *testing.T) {
	const R, r = 200.0, 40.0
	var steps, rings, bands []string
	for i := range 10 {
		s, c := math.Sincos(float64(i) * math.Pi / 18)
		steps = append(steps, fmt.Sprintf("{name: s%d, x: 0, y: %s mm, z: %s mm}", i, ftoa(R*s), ftoa(R-R*c)))
		if i%3 == 0 {
			rings = append(rings, fmt.Sprintf("  - {name: r%d, at: s%d, size: {width: 74 mm, depth: 74 mm}}\n", i, i))
		}
		if i%3 == 0 && i > 0 {
			bands = append(bands, fmt.Sprintf("  - {name: b%d, from: r%d, to: r%d, seams: {at: [0 deg, 90 deg, 180 deg, 270 deg]}}\n", i, i-3, i))
		}
	}
	p := makeText(t, "mirror: true\nframe: {free: true, spine: ["+strings.Join(steps, ", ")+"]}\nrings:\n"+strings.Join(rings, "")+"bands:\n"+strings.Join(bands, ""))
	chord := 2 * math.Sin(math.Pi/12)
	counts := map[float64]int{}
	for _, s := range p.Seams {
		if len(s.Line) != 2 {
			continue // between two bands
		}
		for _, want := range []float64{(R + r) * chord, R * chord, (R - r) * chord} {
			if math.Abs(s.Length-want) < 0.02 {
				counts[want]++
			}
		}
	}
	if counts[(R+r)*chord] != 3 || counts[(R-r)*chord] != 3 || counts[R*chord] < 3 {
		t.Errorf("seams along the outer, the inner side and beside: %v; want 3, 3 and 3 or 6", counts)
	}
}

// A horn: round rings along a curve that shrink to a point. It bends out of the
// plane of its root without twisting: its seams keep their angle to the curve.
func TestMake_horn(t *testing.T) {
	yaml := func(bend, root string) string {
		return `frame: {free: true, segment: head, spine: [{name: root, x: 80 mm, y: 60 mm, z: 0}, {name: middle, x: 150 mm, y: 90 mm, z: 20 mm, tilt: 5 deg}, {name: upper, x: 180 mm, y: 150 mm, z: 50 mm}, {name: tip, x: 170 mm, y: 220 mm, z: 60 mm}]}
rings:
  - {name: a, at: root, size: {width: ` + root + `, depth: 60 mm}}
  - {name: b, at: middle, size: {width: 44 mm, depth: 44 mm}}
  - {name: c, at: upper, size: {width: 24 mm, depth: 24 mm}}
bands:
  - {name: lower, from: a, to: b, seams: {at: [90 deg, -90 deg]}}
  - {name: middle, from: b, to: c, seams: {at: [90 deg, -90 deg]}}
  - {name: tip, from: c, to: cap, bend: ` + bend + `, seams: {at: [90 deg, -90 deg]}}
cap: {kind: point}
`
	}
	p := makeText(t, yaml("around", "60 mm"))
	var tip r3.Vec
	for i := range p.Panels {
		for _, v := range p.Panels[i].Surface.Bent {
			if v.Y > tip.Y {
				tip = v
			}
		}
	}
	if want := (r3.Vec{X: 170, Y: 220, Z: 60}); geom.Dist(tip, want) > 1e-6 || !p.Free || p.Segment != "head" {
		t.Errorf("the tip stands at %v, want %v", tip, want)
	}
	copies := 0
	for i := range p.Panels {
		copies += p.Panels[i].Copies
	}
	if copies != 6 {
		t.Errorf("%d panels, want 6", copies)
	}
	if gores := makeText(t, strings.Replace(yaml("along", "60 mm"), "bend: along, seams: {at: [90 deg, -90 deg]}", "bend: along, seams: {count: 6, start: 90 deg}", 1)); len(gores.Seams) < 10 {
		t.Errorf("%d seams", len(gores.Seams))
	}
	if _, err := tryText(t, strings.Replace(yaml("along", "60 mm"), "bend: along, seams: {at: [90 deg, -90 deg]}", "bend: along, seams: {count: 6}", 1)); err == nil || !strings.Contains(err.Error(), "give both bands the same seams") {
		t.Errorf("got %v; want an error that says which seams do not meet", err)
	}
	if _, err := tryText(t, yaml("around", "400 mm")); err == nil || !strings.Contains(err.Error(), `ring "b" runs into ring "a"`) {
		t.Errorf("got %v; want an error that says which rings run into each other", err)
	}
}
