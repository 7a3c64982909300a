package booklet

import (
	"slices"
	"testing"

	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// Rivets, pivots and hook-and-loop are told with their panels; straps are not, as they
// are told elsewhere.
func TestFastenings_beside(t *testing.T) {
	mark := func(s string) pattern.Mark { return pattern.Mark{Kind: "fastening", Text: s} }
	patch := mark("side strap 7, buckle, of the breastplate")
	patch.Axis = []r2.Vec{{}}
	p := &pattern.Piece{Straps: []pattern.Strap{{Name: "strap", Number: 4}}, Panels: []pattern.Panel{
		{Label: "V1", Marks: []pattern.Mark{mark("rivet 1"), mark("strap 4, inside"), mark("pivot at the temple 3, to the helmet"), patch}},
		{Label: "V2", Marks: []pattern.Mark{mark("rivet 1"), mark("rivet 2"), mark("rivet 2"), mark("hook-and-loop, 3.0 cm wide, on the inside"), {Kind: "pad", Text: "pad V3 inside"}}},
	}}
	want := []entry{
		{"rivet", "1 on V1 and V2; 2 on V2"},
		{"pivot at the temple", "3 on V1 (to the helmet)"},
		{"hook-and-loop", "on V2 (3.0 cm wide, on the inside)"},
	}
	if got := fasteningsOf(p); !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}
