package pattern_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/pattern"
)

const slopedTube = `
format: 1
title: Sloped tube
about: A tube whose upper rim slopes.
code: T
governs: []
thickness: 4 mm
frame: {free: true}
rings:
  - {name: low, at: 0 mm, size: {width: 100 mm, depth: 100 mm}}
  - {name: high, at: 200 mm, size: {width: 100 mm, depth: 100 mm}}
bands:
  - {name: half, from: low, to: high, seams: {at: [0 deg, 180 deg]}}
rims:
  - name: slope
    side: upper
    points: [[-90 deg, 110 mm], [90 deg, 170 mm]]
`

// A rim that rises evenly with the angle unrolls to a straight line: on a
// cylinder both run at rates that are constant, as a helix does.
func TestRimOfAHelixUnrollsStraight(t *testing.T) {
	files := fstest.MapFS{"tube.yaml": {Data: []byte(slopedTube)}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "tube", Template: "tube"}}, files, drawBody(t, 1), pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	radius := 50 + 0.5*4.0
	want := math.Hypot(math.Pi*radius, 60) // half a turn, 60 mm up
	found := 0
	for _, p := range set.Pieces[0].Panels {
		for _, e := range p.Edges {
			if e.Kind != pattern.Rim || !e.Drawn {
				continue
			}
			found++
			if got := geom.Length(e.Line); math.Abs(got-want) > 0.1 {
				t.Errorf("the sloping rim of %s is %.3f mm long, a helix is %.3f mm", p.Name, got, want)
			}
		}
	}
	if found != 2 {
		t.Errorf("%d sloping edges, want one on each half", found)
	}
}

// A curve that runs along the piece's own rim for half of the way round cuts
// nothing there.
func TestRimAlongThePieceOwnRim(t *testing.T) {
	src := strings.Replace(slopedTube, "[[-90 deg, 110 mm], [90 deg, 170 mm]]", "[[-90 deg, 200 mm], [10 deg, 200 mm], [90 deg, 170 mm], [170 deg, 200 mm]]", 1)
	files := fstest.MapFS{"tube.yaml": {Data: []byte(src)}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "tube", Template: "tube"}}, files, drawBody(t, 1), pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, &set.Pieces[0])
	cut := 0.0
	for _, p := range set.Pieces[0].Panels {
		for _, e := range p.Edges {
			if e.Drawn {
				cut += e.Length
			}
		}
	}
	// From 10 to 170 degrees: 160/360 of the way round, a little more as it dips.
	if round := 2 * math.Pi * 52 * 160 / 360; cut < 0.97*round || cut > 1.2*round {
		t.Errorf("%.1f mm of rim are cut, some %.1f mm are drawn below the tube's own", cut, round)
	}
}
