package pattern_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// A collar whose foot spreads out over the shoulders, drawn too low.
const lowCollar = `format: 1
title: Collar
about: A collar.
code: CO
governs: [neck girth]
thickness: 5 mm
ease: 8 mm
padding: 3 mm
frame: {segment: neck, clear: [torso]}
rings:
  - {name: foot, at: neck_base - 20 mm, size: {width: 260 mm, depth: 230 mm}}
  - {name: rim, at: neck_base + 45 mm, section: neck}
bands: [{name: collar, from: foot, to: rim, seams: {at: [0 deg, 180 deg]}}]
`

// What lies on a part of the body that it does not go round is moved until it
// keeps its ease from that too; left to itself it would not.
func TestMake_keepsClearOfWhatItPasses(t *testing.T) {
	for i := range 2 {
		form := drawBody(t, i)
		torso, _ := form.Part(body.Torso, body.Both)
		for clear, kept := range map[string]bool{", clear: [torso]": true, "": false} {
			files := fstest.MapFS{"collar.yaml": {Data: []byte(strings.Replace(lowCollar, ", clear: [torso]", clear, 1))}}
			set, found, err := pattern.Make(context.Background(), []pattern.Order{{Name: "collar", Template: "collar"}}, files, form, pattern.Material{K: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			p := &set.Pieces[0]
			pattern.CheckPiece(t, p)
			least := leastOf(p, torso)
			if keeps := least >= 0.98*8; keeps != kept {
				t.Errorf("body %d, %q: the inner face keeps %.2f mm from the torso, and 8 were asked for", i, clear, least)
			}
			if kept && (math.Abs(p.Passing-least) > 0.5 || p.PassAsked != 8) {
				t.Errorf("body %d: it says that it passes at %.2f of %.1f mm; measured %.2f of 8", i, p.Passing, p.PassAsked, least)
			}
			if kept != strings.Contains(strings.Join(p.Notes, " "), "higher than drawn, to keep clear of the torso") {
				t.Errorf("body %d, %q: its notes are %q", i, clear, p.Notes)
			}
			for _, f := range found {
				if kept && strings.Contains(f.Said, "that it passes") {
					t.Errorf("body %d: %s", i, f.Said)
				}
			}
		}
	}
}

// leastOf is how near the inner face of a piece without openings comes to a part of
// the body, at the corners of its triangles' quarters and of their quarters.
func leastOf(p *pattern.Piece, part *body.Part) float64 {
	least := math.Inf(1)
	var quarter func(a, b, c, in r3.Vec, times int)
	quarter = func(a, b, c, in r3.Vec, times int) {
		if times == 0 {
			for _, at := range []r3.Vec{a, b, c} {
				least = part.Nearer(p.Frame.Point(r3.Add(in, at)), least)
			}
			return
		}
		ab, bc, ca := r3.Scale(0.5, r3.Add(a, b)), r3.Scale(0.5, r3.Add(b, c)), r3.Scale(0.5, r3.Add(c, a))
		quarter(a, ab, ca, in, times-1)
		quarter(ab, b, bc, in, times-1)
		quarter(ca, bc, c, in, times-1)
		quarter(ab, bc, ca, in, times-1)
	}
	for i := range p.Panels {
		s := &p.Panels[i].Surface
		for _, t := range s.T {
			a, b, c := s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]
			quarter(a, b, c, r3.Scale(-p.K*p.Thickness, r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))), 3)
		}
	}
	return least
}
