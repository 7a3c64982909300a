package booklet

import (
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/pattern"
)

// What a strap's length is divided into adds up to it, and elastic is longer than the
// way between its anchors only by what is glued on.
func TestStraps_sayWhatBecomesOfTheirLength(t *testing.T) {
	for _, c := range []struct {
		strap pattern.Strap
		want  string
	}{
		{pattern.Strap{Kind: "elastic", Width: 15, Path: 143, Patch: 40, Length: 170}, "170 mm long, from V1 to V2; 40 mm of it is glued on at either end, and the 90 mm between stretch to 103 mm when worn (143 mm"},
		{pattern.Strap{Kind: "strap and buckle", Width: 25, Path: 200, Patch: 50, Length: 330}, "cut it in two: 100 mm with the buckle sewn on (folded round its bar by 25 mm), and a tongue of 230 mm; 50 mm of each is glued on, and about 55 mm of the tongue are left to pull"},
		{pattern.Strap{Kind: "strap", Width: 25, Path: 90, Patch: 14, Length: 125}, "V2; glued on at each of its marks, and slack by about 21 mm from one to the next (90 mm"},
		{pattern.Strap{Kind: "strap with hook-and-loop", Width: 20, Path: 287, Patch: 45, Length: 372}, "; 45 mm of it is glued on at the fixed end, and the hooks are as long; the 40 mm behind them are left to pull"},
		{pattern.Strap{Kind: "strap and buckle", Width: 25, Path: 200, Patch: 50, Length: 330, Other: "faulds", Hidden: true}, "to V2 of the faulds, inside both: buckle it before you put them on"},
		{pattern.Strap{Kind: "elastic", Width: 15}, "15 mm wide, from V1 to V2"},
	} {
		c.strap.Name, c.strap.Number, c.strap.Count, c.strap.From, c.strap.To = "strap", 4, 1, "V1", "V2"
		p := lamed(pattern.Mark{Text: "strap 4, inside"})
		p.Straps = []pattern.Strap{c.strap}
		got := strapsOf(p, units.MM)
		if len(got) != 1 || !strings.Contains(got[0].text, c.want) {
			t.Errorf("%q\nwant %q", got, c.want)
		}
	}
}

// lamed is a piece of two lames with a mark on each.
func lamed(m pattern.Mark) *pattern.Piece {
	return &pattern.Piece{Units: units.MM, Copies: 1, Chain: [][]string{{"V1"}, {"V2", "V3"}},
		Panels: []pattern.Panel{{Label: "V1", Marks: []pattern.Mark{m}}, {Label: "V2"}, {Label: "V3", Marks: []pattern.Mark{m, {Text: "strap 40, inside"}}}}}
}

// Marks of a rivet lie on each other, those of a strap below each other on it.
func TestLames_rivetsLieOnEachOtherAndStrapsDoNot(t *testing.T) {
	strapped := lamed(pattern.Mark{Text: "strap 4, inside"})
	strapped.Straps = []pattern.Strap{{Kind: "strap", Name: "strap", Number: 4, Path: 90, Patch: 14, Length: 125}}
	riveted := lamed(pattern.Mark{Text: "rivet 2"})
	on, below := "lie on each other", "lie below each other on it"
	for _, c := range []struct {
		p         *pattern.Piece
		has, lack string
	}{{strapped, below, on}, {strapped, "strap 4 by about 21 mm", on}, {riveted, on, below}} {
		if got := lamesOf(c.p)[0].text; !strings.Contains(got, c.has) || strings.Contains(got, c.lack) {
			t.Errorf("%q has not %q, or has %q", got, c.has, c.lack)
		}
	}
}
