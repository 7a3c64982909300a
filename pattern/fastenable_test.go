package pattern

import (
	"context"
	"slices"
	"strings"
	"testing"

	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// The ends of straps need foam, a place of their own and room between them.
func TestFastenable(t *testing.T) {
	end := func(x float64, name string) Mark {
		return Mark{Kind: "fastening", Close: true, Text: name + ", inside", Line: around(r2.Vec{X: x, Y: 25}, 50, 25, true), Axis: []r2.Vec{{X: x - 25, Y: 25}, {X: x + 25, Y: 25}}}
	}
	for _, c := range []struct {
		name  string
		edge  EdgeKind
		marks []Mark
		path  float64
		want  string
	}{
		{"as they should be", Rim, []Mark{end(30, "strap 1"), end(90, "strap 2")}, 101, ""},
		{"a fifth off", Rim, []Mark{end(16, "strap 1")}, 110, ""},
		{"two fifths off", Rim, []Mark{end(5, "strap 1")}, 110, "40 % of the end of strap 1 lies off panel P1"},
		{"over a seam", Butt, []Mark{end(5, "strap 1")}, 110, ""},
		{"on one place", Rim, []Mark{end(40, "strap 1"), end(80, "strap 2")}, 110, "strap 2 and strap 1 want the same place of panel P1"},
		{"a quarter on the lame behind", Rim, []Mark{end(145, "strap 1")}, 110, ""},
		{"half on the lame behind", Rim, []Mark{end(158, "strap 1")}, 110, "50 % of the patch of strap 1 on panel P1 lie where the lame behind slides"},
		{"too short for a buckle", Rim, []Mark{end(40, "strap 1")}, 99, "is only 99 mm from anchor to anchor, and 50 mm of it lie glued on at either end: no buckle"},
	} {
		panel := Panel{Label: "P1", Outline: around(r2.Vec{X: 100, Y: 25}, 200, 50, true), Marks: c.marks, behind: [][]r2.Vec{around(r2.Vec{X: 179, Y: 25}, 42, 50, true)}}
		panel.Edges = []Edge{{Kind: c.edge, Line: append(panel.Outline, panel.Outline[0])}}
		set := Set{Pieces: []Piece{{Name: "plate", Panels: []Panel{panel}, Straps: []Strap{{Kind: "strap and buckle", Name: "strap", Number: 1, Width: 25, Patch: 50, Path: c.path, To: "P1"}, {Kind: "strap", Name: "strap", Number: 2, Width: 25, Patch: 15, Path: 40, To: "P1"}}}}}
		found := set.fastenable()
		switch {
		case c.want == "" && len(found) > 0:
			t.Errorf("%s: %v", c.name, found)
		case c.want != "" && (len(found) != 1 || !strings.Contains(found[0].Said, c.want)):
			t.Errorf("%s: %v; want %q", c.name, found, c.want)
		}
	}
}

// What the catalogue's lames hang on can be buckled.
func TestFastenable_tassets(t *testing.T) {
	orders := []Order{{Name: "faulds", Template: "faulds"}, {Name: "tassets", Template: "tassets"}}
	set, found, err := Make(context.Background(), orders, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.ContainsFunc(set.Pieces[1].Straps, func(s Strap) bool { return s.Other == "faulds" }) {
		t.Fatalf("%v; the tassets hang on nothing", err)
	}
	for _, s := range set.Pieces[1].Straps {
		if s.Other == "faulds" && (!s.Hidden || s.From != "TA4") {
			t.Errorf("%+v; want it to hang by the top lame, and its buckle behind both", s)
		}
	}
	for _, f := range found {
		if f.Subject == "tassets" && (strings.Contains(f.Said, "anchor to anchor") || strings.Contains(f.Said, "lies off") || strings.Contains(f.Said, "same place")) {
			t.Error(f)
		}
	}
}
