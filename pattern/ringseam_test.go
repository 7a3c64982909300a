package pattern_test

import (
	"context"
	"math"
	"testing"
	"testing/fstest"

	"tasset/pattern"
)

const closedTubes = `
format: 1
title: Two tubes
about: Two tubes of one panel each, one on the other.
code: T
governs: []
thickness: 4 mm
frame: {free: true}
rings:
  - {name: low, at: 0 mm, size: {width: 60 mm, depth: 60 mm}}
  - {name: middle, at: 50 mm, size: {width: 60 mm, depth: 60 mm}}
  - {name: high, at: 110 mm, size: {width: 60 mm, depth: 60 mm}}
bands:
  - {name: lower, from: low, to: middle, seams: {at: [-90 deg]}}
  - {name: upper, from: middle, to: high, seams: {at: [150 deg]}}
`

// Two tubes in line meet without a fold, wherever their own seams stand.
func TestRingSeamOfClosedTubes(t *testing.T) {
	files := fstest.MapFS{"tubes.yaml": {Data: []byte(closedTubes)}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "tubes", Template: "tubes"}}, files, drawBody(t, 1), pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	piece := &set.Pieces[0]
	pattern.CheckPiece(t, piece)
	for _, p := range piece.Panels {
		around := 0.0
		for _, e := range p.Edges {
			if e.Kind != pattern.Butt || e.Partner == p.Label {
				continue
			}
			around += e.Length
			if e.Bevel.Max > 0.05 {
				t.Errorf("%s meets %s at a bevel of %.2f rad; they are in line", p.Label, e.Partner, e.Bevel.Max)
			}
		}
		if want := math.Pi * 64; math.Abs(around-want) > 0.1 {
			t.Errorf("%s meets the other tube along %.2f mm, round it is %.2f mm", p.Label, around, want)
		}
	}
}
