package pattern_test

import (
	"math"
	"slices"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/pattern"
)

const holedBand = `
format: 1
title: Band
about: A band with holes all round.
code: B
governs: [head girth]
thickness: 4 mm
frame: {free: true}
rings:
  - {name: low, at: 0, size: {width: 160 mm, depth: 200 mm, z: 15 mm, full: 2.4}}
  - {name: high, at: 30 mm, size: {width: 160 mm, depth: 200 mm, z: 15 mm, full: 2.4}}
bands:
  - {name: band, from: low, to: high}
gap: {at: 180 deg, width: 0 mm}
openings:
  - name: hole
    view: front
    around: 7
    start: 1
    round: {x: 0, y: 15 mm, radius: 0.05 * spacing}
`

// Holes cut all round stand evenly. Source: a cylinder unrolls to its arc length,
// so in the flat strip the holes are a seventh of its length apart, and one, at
// angle 0, stands in its middle.
func TestOpening_allRound(t *testing.T) {
	files := fstest.MapFS{"band.yaml": {Data: []byte(holedBand)}}
	p, _, err := madeFor(pattern.Order{Name: "band", Template: "band"}, files, drawBody(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Panels) != 1 || len(p.Panels[0].Holes) != 7 {
		t.Fatalf("%d panels; the first has %d holes, want 7", len(p.Panels), len(p.Panels[0].Holes))
	}
	box := geom.Bounds(p.Panels[0].Outline)
	length := box.Max.X - box.Min.X
	var at []float64
	for _, h := range p.Panels[0].Holes {
		at = append(at, geom.Centroid(h).X-box.Min.X)
		// Seen square on, a hole of 0.05 spacings is stretched by less than 1 % where the band bends.
		r := 0.05 * length / 7
		if a := math.Abs(geom.Area(h)); math.Abs(a-math.Pi*r*r) > 0.01*math.Pi*r*r {
			t.Errorf("a hole has %.2f mm²; want %.2f", a, math.Pi*r*r)
		}
	}
	slices.Sort(at)
	for i, x := range at {
		if want := length * (float64(i-3)/7 + 0.5); math.Abs(x-want) > geom.Detail {
			t.Errorf("hole %d stands %.3f mm from the strip's end; want %.3f", i+1, x, want)
		}
	}
}
