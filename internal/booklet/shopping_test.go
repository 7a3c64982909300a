package booklet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// Bands are added up by kind and width, magnets, snaps and rivets by their marks.
func TestShopping_addsUpAllPieces(t *testing.T) {
	mark := func(s string) pattern.Mark { return pattern.Mark{Kind: "fastening", Text: s} }
	pieces := []pattern.Piece{
		{Name: "a", Copies: 2, MockUp: true, Straps: []pattern.Strap{{Kind: "elastic", Count: 2, Width: 25, Length: 150}, {Kind: "strap and buckle", Count: 2, Width: 25, Length: 300}},
			Panels: []pattern.Panel{{Copies: 2, Marks: []pattern.Mark{mark("magnet pair 1, + out"), mark("rivet 2")}}, {Copies: 2, Marks: []pattern.Mark{mark("magnet pair 1, - out"), mark("rivet 2")}}}},
		{Name: "b", Copies: 1, MockUp: true, Straps: []pattern.Strap{{Kind: "elastic", Count: 1, Width: 25, Length: 100}, {Kind: "elastic", Count: 1, Width: 20, Length: 0}},
			Sheets: []pattern.Sheet{{Name: "tongue", Of: "strong cloth", Count: 2, Long: 147, Broad: 70}}},
	}
	want := []entry{
		{"elastic", "3 × 25 mm wide, 400 mm in all"},
		{"elastic", "1 × 20 mm wide, as long as you measure on the wearer"},
		{"webbing with a buckle", "2 × 25 mm wide, 600 mm in all; 2 buckles of that width"},
		{"strong cloth", "2 × 147 mm by 70 mm: the tongue of the b"},
		{"magnets", "4"}, {"rivets", "2"},
	}
	if got := shopping(pieces, units.MM); !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// What a piece is built on stands in both lists, in the maker's units: with the piece
// where that is not plain.
func TestShopping_saysWhatAPieceIsBuiltOn(t *testing.T) {
	blade := pattern.Piece{Name: "blade", MockUp: true, Bought: []pattern.Bought{{Name: "rod of wood", Text: "it runs in slots", Count: 1, Thick: 9.525, Long: 508}}}
	gloves := pattern.Piece{Name: "gauntlet", Copies: 2, MockUp: true, Bought: []pattern.Bought{{Name: "glove", Text: "it carries the plates", Count: 2}}}
	block := pattern.Piece{Name: "axe", MockUp: true, Bought: []pattern.Bought{{Name: "block of soft foam", Text: "inside", Count: 1, Thick: 40, Wide: 114, Long: 69}}}
	for u, want := range map[units.Unit][]entry{
		units.CM: {
			{"rod of wood", "1 × 9.5 mm thick, 50.8 cm long, for the blade: it runs in slots"},
			{"glove", "2, for the gauntlet: it carries the plates"},
			{"block of soft foam", "1 × 40 mm thick, 11.4 cm wide, 6.9 cm long, for the axe: inside"},
		},
		units.Inch: {
			{"rod of wood", "1 × 3/8 in thick, 20 in long, for the blade: it runs in slots"},
			{"glove", "2, for the gauntlet: it carries the plates"},
			{"block of soft foam", "1 × 1.57 in thick, 4 1/2 in wide, 2 3/4 in long, for the axe: inside"},
		},
	} {
		if got := shopping([]pattern.Piece{blade, gloves, block}, u); !slices.Equal(got, want) {
			t.Errorf("got %q\nwant %q", got, want)
		}
	}
	blocks := withBought(nil, &blade, nil, units.CM)
	if want := []entry{{"rod of wood", "1 × 9.5 mm thick, 50.8 cm long: it runs in slots"}}; len(blocks) != 1 || !slices.Equal(blocks[0].entries, want) {
		t.Errorf("its page says %+v, want %q", blocks, want)
	}
	if all := shopping([]pattern.Piece{blade}, units.CM); len(withBought(nil, &blade, all, units.CM)) != 1 {
		t.Error("a lone piece's page says twice what is bought")
	}
	if blocks := withBought(nil, &pattern.Piece{}, nil, units.CM); blocks != nil {
		t.Errorf("a piece of foam alone is built on %+v", blocks)
	}
}

// Hook-and-loop is as long as half of its marks, as hooks and loops lie on each
// other: two strips of 200, a patch at the end of a strap of 45, two of 80, and one of 62 with its hooks on
// the one copy and its loops on the other; a pivot goes through two panels; foam is the area of all copies.
func TestShopping_addsUpMarksAndFoam(t *testing.T) {
	rect := func(w, h float64) []r2.Vec { return []r2.Vec{{}, {X: w}, {X: w, Y: h}, {Y: h}} }
	mark := func(s string, w, h float64) pattern.Mark {
		return pattern.Mark{Kind: "fastening", Text: s, Close: true, Line: rect(w, h)}
	}
	only := func(m pattern.Mark, which string) pattern.Mark {
		m.Only = "only on the copy " + which
		return m
	}
	pieces := []pattern.Piece{{Copies: 1, Thickness: 5, Panels: []pattern.Panel{
		{Copies: 2, Outline: rect(500, 400), Marks: []pattern.Mark{mark("hook-and-loop, 25 mm wide", 200, 25), mark("pivot at the temple 1", 15, 15)}},
		{Copies: 2, Outline: rect(100, 100), Thick: 2, Marks: []pattern.Mark{mark("pivot at the temple 1, of the visor", 15, 15)}},
		{Copies: 2, Marks: []pattern.Mark{mark("chin strap 1, strap, inside; on the copy turned over: loops for the hooks at its end, inside", 45, 20), mark("pouch 2, hooks, outside", 80, 30)}},
		{Copies: 2, Marks: []pattern.Mark{mark("pouch 2, loops, on the face to BE1", 80, 30)}},
		{Copies: 2, Flipped: 1, Marks: []pattern.Mark{only(mark("ends, 62 mm wide, on the outside: hooks", 62, 25), "turned over"), only(mark("ends, 62 mm wide, on the inside: loops", 62, 25), "not turned over")}},
		{Copies: 1, Outline: rect(100, 100), Thick: 8, Role: pattern.Pad},
	}}, {Copies: 1, Thickness: 5, MockUp: true, Panels: []pattern.Panel{{Copies: 1, Outline: rect(1000, 1000)}}}}
	want := []entry{
		{"hook-and-loop", "467 mm of hooks and as much of loops at least, as the marks are long; the widest is 30 mm wide"},
		{"pivots", "2"},
		{"foam, 2 mm", "at least 0.02 m², and what is lost between the panels"},
		{"foam, 5 mm", "at least 0.40 m², and what is lost between the panels"},
		{"soft foam for pads, 8 mm", "at least 0.01 m², and what is lost between the panels"},
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

// Where the lists are longer than the room under the drawings they go on on another
// page, and nothing of them is lost.
func TestSuitPages_loseNothing(t *testing.T) {
	var pieces []pattern.Piece
	for i := range 60 {
		p := *tube(4)
		p.Name, p.Thickness, p.Copies = fmt.Sprintf("tube no %d", i), float64(2+i%7), 1
		pieces = append(pieces, p)
	}
	scene := Both(&pieces[0], scenes(pieces[:1])[0].shaded())
	for _, size := range [][2]float64{{210, 297}, {148, 210}} {
		pages := suitPages(pieces, scene, size[0], size[1], units.MM)
		_, all := textsOf(pages...)
		for i := range pieces {
			if !strings.Contains(all, pieces[i].Name) {
				t.Errorf("%v: %s is not listed", size, pieces[i].Name)
			}
		}
		if !strings.Contains(all, "foam, 8 mm") {
			t.Errorf("%v: the last foam to buy is not listed", size)
		}
	}
}

// Of pieces that are only carried there is no order to put them on.
func TestPiecesTitle(t *testing.T) {
	staff, helm := pattern.Piece{Name: "staff", Free: true}, pattern.Piece{Name: "helm"}
	if got := piecesTitle([]pattern.Piece{staff}); got != "Pieces" {
		t.Errorf("carried pieces are headed %q", got)
	}
	if got := piecesTitle([]pattern.Piece{staff, helm}); got != "Pieces, in an order to put them on" {
		t.Errorf("worn pieces are headed %q", got)
	}
	if got := weights([]pattern.Piece{staff, helm}, units.MM); got[0].text != "carried" || got[1].text != "" {
		t.Errorf("the list says %q; want that the staff is carried", got)
	}
}
