package booklet

import (
	"slices"
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/pattern"
)

// Bands are added up by kind and width, magnets, snaps and rivets by their marks.
func TestShopping_addsUpAllPieces(t *testing.T) {
	mark := func(s string) pattern.Mark { return pattern.Mark{Kind: "fastening", Text: s} }
	pieces := []pattern.Piece{
		{Name: "a", Copies: 2, Straps: []pattern.Strap{{Kind: "elastic", Count: 2, Width: 25, Length: 150}, {Kind: "strap and buckle", Count: 2, Width: 25, Length: 300}},
			Panels: []pattern.Panel{{Copies: 2, Marks: []pattern.Mark{mark("magnet pair 1, + out"), mark("rivet 2")}}, {Copies: 2, Marks: []pattern.Mark{mark("magnet pair 1, - out"), mark("rivet 2")}}}},
		{Name: "b", Copies: 1, Straps: []pattern.Strap{{Kind: "elastic", Count: 1, Width: 25, Length: 100}, {Kind: "elastic", Count: 1, Width: 20, Length: 0}}},
	}
	want := []entry{
		{"elastic", "3 × 25 mm wide, 400 mm in all"},
		{"elastic", "1 × 20 mm wide, as long as you measure on the wearer"},
		{"strap and buckle", "2 × 25 mm wide, 600 mm in all; 2 buckles of that width"},
		{"magnets", "4"}, {"rivets", "2"},
	}
	if got := shopping(pieces, units.MM); !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// Lames are named from the innermost on, whichever way they overlap.
func TestLames_innermostFirst(t *testing.T) {
	p := pattern.Piece{Overlap: 16, Panels: []pattern.Panel{{Label: "X1"}, {Label: "X2", Lame: 1}, {Label: "X3", Lame: 2}, {Label: "X4", Lame: 2}, {Label: "X5", Lame: 1, Role: pattern.Strip}}}
	for upper, want := range map[bool]string{true: "X2, X3 + X4", false: "X3 + X4, X2"} {
		p.UpperOut = upper
		if got := lamesOf(&p); len(got) != 1 || got[0].head != want || !strings.Contains(got[0].text, "each further one lies 16 mm over the one before it") {
			t.Errorf("upper out %t: %q, want %q", upper, got, want)
		}
	}
	if got := lamesOf(&pattern.Piece{Panels: p.Panels[:2]}); got != nil {
		t.Errorf("one lame has no order: %q", got)
	}
}
