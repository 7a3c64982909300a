package fit_test

import (
	"context"
	"io/fs"
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

// What floats over a joint turns by half of it, so that two tubes touch at twice
// the angle of the closed form for tubes that turn with it: g = r·tan(angle/4).
// Source: plane geometry.
func TestMoving_floatingTurnsByHalf(t *testing.T) {
	const r, g = 50.0, 15.0
	want := 4 * units.Deg(math.Atan(g/r))
	angle, _, met := fit.Bent(roundTube(r, -g-120, -g), roundTube(r, g, g+120), r3.Vec{X: 1}, 0.5, units.Rad(95))
	if got := units.Deg(angle); !met || math.Abs(got-want) > 1 {
		t.Errorf("touch at %.2f° (%v), want %.2f°", got, met, want)
	}
}

// The lames of a run share the angle evenly, from the part that stands still to
// the part that moves, and stop where the run is bent as far as it goes.
func TestMoving_lamesShareTheAngle(t *testing.T) {
	form := wearer(t)
	knee, _ := form.Joint("knee", body.Left)
	const n = 4
	run := func(seg body.Segment, joint string, rest float64) *pattern.Piece {
		p := roundTube(60, rest, rest+20)
		p.Segment, p.Joint, p.Side, p.Through = seg, joint, body.Left, units.Rad(60)
		p.Frame.O = knee.Centre
		for i := range n {
			lame := roundTube(60, float64(i)*20, float64(i)*20+25).Panels[0]
			lame.Lame = i + 1
			p.Panels = append(p.Panels, lame)
		}
		return p
	}
	for _, c := range []struct {
		about string
		piece *pattern.Piece
		at    float64
		want  [n]float64 // degrees, from below
	}{
		{"on the part that stands still", run(body.Thigh, "", 100), 40, [n]float64{40, 30, 20, 10}},
		{"bent as far as it goes", run(body.Thigh, "", 100), 90, [n]float64{60, 45, 30, 15}},
		{"on the part that moves", run(body.Shank, "", -200), 40, [n]float64{30, 20, 10, 0}},
		{"on the part that moves, as far as it goes", run(body.Shank, "", -200), 90, [n]float64{75, 60, 45, 30}},
		{"floating", run("", "knee", 200), 40, [n]float64{35, 25, 15, 5}},
		{"at the other end of the piece", run(body.Thigh, "", -10), 40, [n]float64{0, 0, 0, 0}},
	} {
		got := fit.LamesTurn(c.piece, form, "knee", units.Rad(c.at))
		if len(got) != n {
			t.Fatalf("%s: %d lames, want %d", c.about, len(got), n)
		}
		for i := range got {
			if math.Abs(units.Deg(got[i])-c.want[i]) > 1e-9 {
				t.Errorf("%s: lame %d turns by %.1f°, want %.1f°", c.about, i+1, units.Deg(got[i]), c.want[i])
			}
		}
	}
}

// Two tubes side by side are in each other where their axes are nearer than
// their diameter, and only there.
func TestCheck_piecesInEachOtherAtRest(t *testing.T) {
	for d, want := range map[float64]string{90: "passes through the b", 99.6: "lies in the foam of the b", 102.2: "", 110: ""} {
		a, b := roundTube(50, 0, 100), roundTube(50, 0, 100)
		a.Name, b.Name, a.Segment, b.Segment = "a", "b", body.Torso, body.Torso
		a.Thickness, b.Thickness = 4, 4 // neutral surface at 49.5 mm
		b.Frame.O.X = d
		found := fit.Clashes(&pattern.Set{Pieces: []pattern.Piece{*a, *b}})
		switch {
		case want == "" && len(found) > 0:
			t.Errorf("%g mm apart: %v", d, found)
		case want != "" && (len(found) != 1 || !strings.Contains(found[0].Said, want)):
			t.Errorf("%g mm apart: %v, want %q", d, found, want)
		}
	}
	pair := roundTube(50, 0, 100)
	pair.Name, pair.Segment, pair.Side, pair.Copies = "a", body.Thigh, body.Both, 2
	for x, want := range map[float64]bool{45: true, 60: false} {
		pair.Frame.O.X = x
		if found := fit.Clashes(&pattern.Set{Pieces: []pattern.Piece{*pair}}); (len(found) > 0) != want {
			t.Errorf("a pair %g mm from the middle: %v, want a finding: %v", x, found, want)
		}
	}
}

const skirt = `
format: 1
title: Skirt
about: A tube round the hips.
code: K
governs: [hip girth]
thickness: 6 mm
ease: 10 mm
frame: {segment: torso}
rings:
  - {name: hem, at: RIM, section: hip}
  - {name: top, at: waist}
bands:
  - {name: tube, from: hem, to: top, seams: {at: [0 deg, 180 deg]}}
`

// A rigid skirt down over the thighs keeps the wearer from sitting; one that
// ends above the hip crease does not.
func TestCheck_thighMustRise(t *testing.T) {
	form := wearer(t)
	for rim, kept := range map[string]bool{"crotch - 60 mm": true, "waist - 20 mm": false} {
		set := made(t, form, strings.Replace(skirt, "RIM", rim, 1))
		f, found := about(fit.Check(set, form).Findings, "when the thigh is raised")
		if found != kept {
			t.Errorf("hem at %s: kept from sitting %v, want %v %v", rim, found, kept, f)
		}
		if found && !strings.Contains(f.Said, "lower edge meets the thigh") {
			t.Errorf("hem at %s: %s", rim, f.Said)
		}
	}
}

// suitPieces are those of a suit head to foot.
var suitPieces = []string{"visored-helmet", "visor", "gorget", "breastplate", "backplate", "faulds", "tassets", "pauldron",
	"rerebrace", "couter", "vambrace", "gauntlet", "cuisse", "poleyn", "greave", "sabaton"}

func BenchmarkCheck_suit(b *testing.B) {
	form := wearer(b)
	var orders []pattern.Order
	for _, name := range suitPieces {
		if _, err := fs.Stat(templates.FS, name+".yaml"); err == nil {
			orders = append(orders, pattern.Order{Name: name, Template: name})
		}
	}
	set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(len(set.Pieces)), "pieces")
	for b.Loop() {
		fit.Check(set, form)
	}
}
