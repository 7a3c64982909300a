package pattern_test

import (
	"math"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/pattern"
)

const holedBand = `
format: 1
title: Band
about: A band round the head with holes all round.
code: B
governs: [head girth]
thickness: 4 mm
ease: 10 mm
frame: {segment: head}
rings:
  - {name: low, at: brow, corners: [30 deg, 90 deg, 150 deg, 210 deg, 270 deg, 330 deg]}
  - {name: high, at: brow + 30 mm, section: brow, corners: [30 deg, 90 deg, 150 deg, 210 deg, 270 deg, 330 deg]}
bands:
  - {name: band, from: low, to: high, seams: {at: [90 deg, 270 deg]}}
openings:
  - name: hole
    view: front
    around: 6
    start: -60 deg
    round: {x: 0, y: brow + 15 mm, radius: 3 mm + turn * 1 mm / 60 deg}
`

// Holes cut all round stand at even angles, and each is a circle of the radius
// that its angle gives. Source: elementary geometry; on an upright wall that
// looks along the view a circle stays one, of area π·r².
func TestOpening_allRound(t *testing.T) {
	files := fstest.MapFS{"band.yaml": {Data: []byte(holedBand)}}
	p, _, err := madeFor(pattern.Order{Name: "band", Template: "band"}, files, drawBody(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	found := map[int]float64{} // area by place in the turn
	for i := range p.Panels {
		for _, h := range p.Panels[i].Holes {
			at := p.Panels[i].Surface.Lift(geom.Centroid(h))
			turn := math.Mod(math.Atan2(at.X, at.Z)+2*math.Pi, 2*math.Pi) / (math.Pi / 3)
			k := int(math.Round(turn)) % 6
			if d := math.Hypot(at.X, at.Z) * math.Abs(turn-math.Round(turn)) * math.Pi / 3; d > geom.Detail {
				t.Errorf("a hole stands %.3f mm beside an even angle", d)
			}
			found[k] = math.Abs(geom.Area(h))
		}
	}
	for k := range 6 {
		r := 3 + float64((k+1)%6) - 1
		if want := math.Pi * r * r; math.Abs(found[k]-want) > 0.005*want { // 72 chords lack 0.13 %
			t.Errorf("hole %d has %.2f mm²; want %.2f", k, found[k], want)
		}
	}
}
