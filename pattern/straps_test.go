package pattern

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A band from one side of a cylinder to the other, drawn over its front, is as
// long as two tangents and the arc between where they touch (closed form): from
// points at a distance d from the axis of a cylinder of radius r,
// 2·√(d²-r²) + r·(angle between the points - 2·acos(r/d)).
func TestPathOver_aCylinder(t *testing.T) {
	const r, d, half = 50.0, 60.0, 70 * math.Pi / 180
	at := func(side float64) anchor {
		s, c := math.Sincos(side * half)
		middle := r3.Vec{X: d * s, Y: 10, Z: d * c}
		along, up := r3.Vec{X: c, Z: -s}, r3.Vec{Y: 1}
		p := &Piece{Frame: geom.Identity(), Panels: []Panel{{}}}
		surf := &p.Panels[0].Surface
		surf.Flat = []r2.Vec{{X: -5, Y: -5}, {X: 5, Y: -5}, {X: 0, Y: 5}}
		for _, q := range surf.Flat {
			surf.Bent = append(surf.Bent, r3.Add(middle, r3.Add(r3.Scale(q.X, along), r3.Scale(q.Y, up))))
		}
		surf.T = [][3]int{{0, 1, 2}}
		return anchor{piece: p}
	}
	want := 2*math.Sqrt(d*d-r*r) + r*(2*half-2*math.Acos(r/d))
	if got := pathOver(lathe(-60, 60, func(float64) float64 { return r }), at(-1), at(1)); math.Abs(got-want) > 0.05 {
		t.Errorf("the path is %.3f mm long, want %.3f", got, want)
	}
}

const shellOf = `format: 1
title: TITLE
about: Half of a harness.
code: CODE
governs: [chest girth]
thickness: 6 mm
ease: 10 mm
mirror: true
frame: {segment: torso}
span: {from: FROM, to: TO}
rings:
  - {name: low, at: natural_waist}
  - {name: high, at: chest}
bands:
  - {name: shell, from: low, to: high}
`

func harness(front, back string) fstest.MapFS {
	of := func(title, code, from, to, more string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(strings.NewReplacer("TITLE", title, "CODE", code, "FROM", from, "TO", to).Replace(shellOf) + more)}
	}
	return fstest.MapFS{"front.yaml": of("Front", "FR", "-80 deg", "80 deg", front), "back.yaml": of("Back", "BA", "100 deg", "260 deg", back)}
}

const sideStrap = "fastenings:\n  - {kind: strap and buckle, name: side strap, angle: 75 deg, level: natural_waist + 60 mm, width: 38 mm, mirror: true, to: back, to-angle: 105 deg, to-level: natural_waist + 60 mm}\n"

// A strap from a piece to another is marked on both with one number, on both
// sides, its patches clear of the rims; its length is the path and what the trade
// adds.
func TestFasten_fromPieceToPiece(t *testing.T) {
	orders := []Order{{Name: "front", Template: "front"}, {Name: "back", Template: "back"}}
	set, found, err := Make(context.Background(), orders, harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"side strap 1, strap, inside, to the back", "side strap 1, buckle, inside, of the front"} {
		p := &set.Pieces[i]
		checkPiece(t, p)
		marks := 0
		for _, panel := range p.Panels {
			for _, m := range panel.Marks {
				if m.Kind != "fastening" || m.Text != want {
					t.Errorf("%s says %q, want %q", p.Name, m.Text, want)
				}
				marks += panel.Copies
				for _, e := range panel.Edges {
					for _, q := range m.Line {
						d := math.Inf(1)
						for i := 0; i+1 < len(e.Line); i++ {
							d = min(d, geom.DistToSegment(q, e.Line[i], e.Line[i+1]))
						}
						if e.Kind != Butt && d < fasteningInset-0.5 {
							t.Errorf("%s: the patch of %q comes within %.1f mm of a rim", p.Name, m.Text, d)
						}
					}
				}
			}
		}
		if marks != 2 {
			t.Errorf("%s has %d marks, want 2", p.Name, marks)
		}
	}
	if len(set.Pieces[0].Straps) != 1 || len(set.Pieces[1].Straps) != 0 {
		t.Fatalf("straps %v and %v, want one kind, of the front", set.Pieces[0].Straps, set.Pieces[1].Straps)
	}
	s := set.Pieces[0].Straps[0]
	if s.Count != 2 || s.Other != "back" || s.Width != 38 || math.Abs(s.Length-(s.Path+63+80)) > 1e-9 || s.Path < 60 || s.Path > 300 {
		t.Errorf("the strap is %+v", s)
	}
	for _, f := range found {
		if strings.Contains(f.Said, "goes to") {
			t.Error(f)
		}
	}
	alone, found, err := Make(context.Background(), orders[:1], harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil || len(alone.Pieces[0].Straps) > 0 || !slices.ContainsFunc(found, func(f report.Finding) bool { return strings.Contains(f.Said, "goes to the back") }) {
		t.Errorf("without the back: %v, %v", found, err)
	}
}

// What comes after is put on last, whatever the costume's order; what goes round
// names both files.
func TestDress(t *testing.T) {
	orders := []Order{{Name: "front", Template: "front"}, {Name: "back", Template: "back"}}
	set, _, err := Make(context.Background(), orders, harness("after: [back]\n", ""), drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.Equal(set.Dressing, []string{"back", "front"}) {
		t.Errorf("%v, %v; want the back first", set, err)
	}
	set, _, err = Make(context.Background(), orders, harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.Equal(set.Dressing, []string{"back", "front"}) {
		t.Errorf("%v, %v; want the back first, as the front is strapped to it", set.Dressing, err)
	}
	_, _, err = Make(context.Background(), orders, harness("after: [back]\n", "after: [front]\n"), drawnForm(t), Material{K: 0.5})
	if err == nil || !strings.Contains(err.Error(), "front.yaml is put on after back.yaml is put on after front.yaml") {
		t.Errorf("%v; want both files named", err)
	}
}

// What goes round the neck must pull open; elsewhere a buckle is as good as any.
func TestFasten_roundTheNeckItPullsOpen(t *testing.T) {
	for segment, wants := range map[string]bool{"neck": true, "torso": false} {
		text := strings.NewReplacer("waist girth", "neck girth", "{free: true}", "{free: true, segment: "+segment+"}").Replace(tube)
		_, found := makeText(t, text+"fastenings:\n  - {kind: strap and buckle, angle: 0 deg, level: 50 mm}\n")
		if got := slices.ContainsFunc(found, func(f report.Finding) bool { return strings.Contains(f.Said, "open by a pull") }); got != wants {
			t.Errorf("%s: %v", segment, found)
		}
	}
}
