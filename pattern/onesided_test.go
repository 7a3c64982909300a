package pattern_test

import (
	"context"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/pattern"
)

const shinPlate = `
format: 1
title: Shin plate
about: A plate on the shin.
code: SP
governs: []
thickness: 5 mm
ease: 5 mm
frame: {segment: shank}
span: {from: -60 deg, to: 60 deg}
rings:
  - {name: low, at: mid_shank}
  - {name: high, at: calf}
bands:
  - {name: plate, from: low, to: high}
`

const overShinPlate = `
format: 1
title: Over the shin plate
about: A plate over the plate on the shin.
code: OP
governs: []
thickness: 5 mm
frame: {over: shin-plate, gap: 2 mm}
span: {from: -40 deg, to: 40 deg}
rings:
  - {name: low, at: 0.5 * (mid_shank + calf)}
  - {name: high, at: calf}
bands:
  - {name: plate, from: low, to: high}
`

// What lies over a piece that is worn on one side alone is made for that side.
func TestOver_oneSide(t *testing.T) {
	files := fstest.MapFS{"shin-plate.yaml": {Data: []byte(shinPlate)}, "over.yaml": {Data: []byte(overShinPlate)}}
	for _, side := range []body.Side{body.Left, body.Right} {
		orders := []pattern.Order{{Name: "plate", Template: "shin-plate", Side: side}, {Name: "over", Template: "over"}}
		set, _, err := pattern.Make(context.Background(), orders, files, drawBody(t, 2), pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(set.Pieces); n != 2 {
			t.Fatalf("%d pieces for one plate and what lies over it", n)
		}
		if p := set.Pieces[1]; p.Side != side || p.Copies != 1 {
			t.Errorf("over a %v plate stand %d pieces on the %v", side, p.Copies, p.Side)
		}
	}
}
