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

// Lames are told in the order in which they lie over each other, as wide as was
// measured.
func TestLames_innermostFirst(t *testing.T) {
	p := pattern.Piece{Overlap: 16, Chain: [][]string{{"X3", "X4"}, {"X2"}}}
	for _, c := range []struct {
		covers pattern.Widths
		want   string
	}{
		{pattern.Widths{}, "each further one lies 16 mm, told along the run, over the one before it"},
		{pattern.Widths{Least: 20.2, Most: 30.6}, "each further one lies 20 mm to 31 mm (when straight"},
	} {
		p.Covers = c.covers
		if got := lamesOf(&p); len(got) != 1 || got[0].head != "X3 + X4, X2" || !strings.Contains(got[0].text, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := lamesOf(&pattern.Piece{Chain: p.Chain[:1]}); got != nil {
		t.Errorf("one lame has no order: %q", got)
	}
}
