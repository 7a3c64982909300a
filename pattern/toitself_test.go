package pattern

import (
	"context"
	"slices"
	"testing"
	"testing/fstest"
)

// spindle is two tubes that are alike and meet where they are widest.
const spindle = `format: 1
title: Spindle
about: A spindle.
code: SP
governs: []
thickness: 5 mm
mirror: false
frame: {free: true}
rings:
  - {name: foot, at: 0 mm, size: {width: 30 mm, depth: 30 mm}}
  - {name: middle, at: 60 mm, size: {width: 50 mm, depth: 50 mm}}
  - {name: head, at: 120 mm, size: {width: 30 mm, depth: 30 mm}}
bands:
  - {name: lower, from: foot, to: middle, seams: {at: [180 deg]}}
  - {name: upper, from: middle, to: head, seams: {at: [180 deg]}}
`

func TestToItself(t *testing.T) {
	set, _, err := Make(context.Background(), []Order{{Name: "spindle", Template: "spindle"}}, fstest.MapFS{"spindle.yaml": {Data: []byte(spindle)}}, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	p := &set.Pieces[0]
	if len(p.Panels) != 1 || p.Panels[0].Copies != 2 {
		t.Fatalf("the spindle has %d panels; want one, cut twice", len(p.Panels))
	}
	var said []string
	for _, e := range p.Panels[0].Edges {
		said = append(said, p.ToItself(&p.Panels[0], e))
	}
	slices.Sort(said)
	if want := []string{"", "its other edge", "its other edge", "the other one, end for end"}; !slices.Equal(said, want) {
		t.Errorf("its edges meet %q; want %q", said, want)
	}
}
