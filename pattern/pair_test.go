package pattern_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
)

const peg = `
format: 1
title: Peg
about: A cone beside the head.
code: P
governs: []
thickness: 3 mm
frame: {free: true, pair: true, segment: head}
rings:
  - {name: low, at: 0, size: {width: 60 mm, depth: 60 mm, x: 120 mm}}
  - {name: high, at: 70 mm, size: {width: 30 mm, depth: 40 mm, x: 130 mm}}
bands:
  - {name: side, from: low, to: high, seams: {at: [0 deg, 100 deg]}}
`

// A free pair is one set of templates for a left and a right piece; asked for
// alone, the right one is the left one's mirror image. Source: reflection.
func TestMake_freePair(t *testing.T) {
	files := fstest.MapFS{"peg.yaml": {Data: []byte(peg)}}
	form := drawBody(t, 3)
	make := func(side body.Side) *pattern.Piece {
		p, _, err := madeFor(pattern.Order{Name: "peg", Template: "peg", Side: side}, files, form)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	both, left, right := make(body.Both), make(body.Left), make(body.Right)
	if both.Copies != 2 || both.Panels[0].Copies != 2 || both.Panels[0].Flipped != 1 {
		t.Errorf("a pair has %d copies, and panel 1 is cut %d times, %d of them turned over", both.Copies, both.Panels[0].Copies, both.Panels[0].Flipped)
	}
	for i, p := range left.Panels {
		l, r := p.Surface.Lift(geom.Centroid(p.Outline)), right.Panels[i].Surface.Lift(geom.Centroid(right.Panels[i].Outline))
		if l = left.Frame.Point(l); l.X < 90 {
			t.Errorf("panel %d of the left one stands %.1f mm to the left", i+1, l.X)
		}
		r = right.Frame.Point(r)
		if r.X = -r.X; geom.Dist(l, r) > 1e-6 {
			t.Errorf("panel %d of the right one stands %.6f mm beside the left one's image", i+1, geom.Dist(l, r))
		}
	}
}

// Only what stands free can be said to be a pair.
func TestParse_pairOfALimb(t *testing.T) {
	files := fstest.MapFS{"peg.yaml": {Data: []byte(strings.Replace(peg, "free: true, pair: true, segment: head", "pair: true, segment: forearm", 1))}}
	_, _, err := madeFor(pattern.Order{Name: "peg", Template: "peg"}, files, drawBody(t, 3))
	if err == nil || !strings.Contains(err.Error(), "pair is for what stands free") {
		t.Errorf("a pair on a limb gives %v", err)
	}
}
