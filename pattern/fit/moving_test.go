package fit_test

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// roundTube is a tube about the y axis from one level to another, of foam 1 mm
// thick with its outer face at a radius.
func roundTube(outer, from, to float64) *pattern.Piece {
	const strips = 180
	r := outer - 0.5
	p := pattern.Panel{Copies: 1}
	var low, high []r2.Vec
	for i := range strips + 1 {
		a := 2 * math.Pi * float64(i) / strips
		sin, cos := math.Sincos(a)
		low, high = append(low, r2.Vec{X: r * a, Y: from}), append(high, r2.Vec{X: r * a, Y: to})
		p.Surface.Flat = append(p.Surface.Flat, low[i], high[i])
		p.Surface.Bent = append(p.Surface.Bent, r3.Vec{X: r * sin, Y: from, Z: r * cos}, r3.Vec{X: r * sin, Y: to, Z: r * cos})
		if k := 2 * i; i < strips {
			p.Surface.T = append(p.Surface.T, [3]int{k, k + 2, k + 1}, [3]int{k + 1, k + 2, k + 3})
		}
	}
	p.Outline = append(append([]r2.Vec(nil), low...), geom.Reversed(high)...)
	p.Edges = []pattern.Edge{{Kind: pattern.Rim, Line: low}, {Kind: pattern.Butt, Line: []r2.Vec{low[strips], high[strips]}},
		{Kind: pattern.Rim, Line: geom.Reversed(high)}, {Kind: pattern.Butt, Line: []r2.Vec{high[0], low[0]}}}
	return &pattern.Piece{Copies: 1, Thickness: 1, K: 0.5, Frame: geom.Identity(), Panels: []pattern.Panel{p}}
}

// Two tubes of radius r that end at the distance g on either side of the hinge
// on their common axis touch at the angle where g = r·tan(angle/2). Source:
// plane geometry; the rims meet on the plane that halves the angle.
func TestMoving_twoTubesTouch(t *testing.T) {
	const r = 50.0
	for _, g := range []float64{8, 15, 25, 35, 50} {
		still, moving := roundTube(r, g, g+120), roundTube(r, -g-120, -g)
		want := 2 * units.Deg(math.Atan(g/r))
		angle, off, met := fit.Bent(moving, still, r3.Vec{X: 1}, 1, units.Rad(95))
		if got := units.Deg(angle); !met || math.Abs(got-want) > 0.5 {
			t.Errorf("gap %g mm: touch at %.2f° (%v), want %.2f°", g, got, met, want)
		} else {
			t.Logf("gap %g mm: touch at %.2f°, closed form %.2f°", g, got, want)
		}
		if _, _, met := fit.Bent(moving, still, r3.Vec{X: 1}, 1, units.Rad(want-1)); met {
			t.Errorf("gap %g mm: touch before %.2f°", g, want-1)
		}
		shorter := roundTube(r, -g-120, -g-off)
		if a, _, met := fit.Bent(shorter, still, r3.Vec{X: 1}, 1, units.Rad(95)); met {
			t.Errorf("gap %g mm: %g mm shorter, as advised, they still touch at %.1f°", g, off, units.Deg(a))
		}
	}
}

// checked makes one piece of the catalogue and checks it.
func checked(t *testing.T, form *body.Form, o pattern.Order) []report.Finding {
	t.Helper()
	o.Name = o.Template
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, withSleeve(t), form, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return fit.Check(set, form).Findings
}

func about(fs []report.Finding, what string) (report.Finding, bool) {
	for _, f := range fs {
		if strings.Contains(f.Said, what) {
			return f, true
		}
	}
	return report.Finding{}, false
}

// sleeve is a plain tube round the forearm up to a share of the way to the elbow.
const sleeve = `
format: 1
title: Sleeve
about: A tube round the forearm.
code: E
governs: [forearm length]
thickness: 5 mm
ease: 6 mm
settings:
  reach: {unit: percent, default: 80 %, min: 30 %, max: 95 %, about: How far it reaches from the wrist to the elbow.}
frame: {segment: forearm}
rings:
  - {name: wrist rim, at: wrist + 15 mm}
  - {name: elbow rim, at: wrist + reach * (elbow - wrist)}
bands:
  - {name: tube, from: wrist rim, to: elbow rim, seams: {at: [0 deg]}}
gap: {at: -90 deg, lap: 30 mm}
`

// withSleeve is the catalogue with the sleeve.
func withSleeve(t *testing.T) fs.FS {
	t.Helper()
	files := fstest.MapFS{"sleeve.yaml": {Data: []byte(sleeve)}}
	names, _ := fs.Glob(templates.FS, "*.yaml")
	for _, n := range names {
		text, err := fs.ReadFile(templates.FS, n)
		if err != nil {
			t.Fatal(err)
		}
		files[n] = &fstest.MapFile{Data: text}
	}
	return files
}

// A piece that keeps a joint from bending says so, and not when it was made as
// advised.
func TestCheck_jointMustBend(t *testing.T) {
	form := wearer(t)
	straight := map[string]pattern.Value{"knee arch": {Number: 0}}
	for _, c := range []struct {
		template, said, setting string
		with                    map[string]pattern.Value
	}{
		{"greave", "when the knee bends, the back of its edge at the knee meets the thigh", "knee gap", straight},
		{"sleeve", "when the elbow bends, the front of its edge at the elbow meets the upper arm", "reach", map[string]pattern.Value{}},
	} {
		f, found := about(checked(t, form, pattern.Order{Template: c.template, Settings: c.with}), c.said)
		if !found || f.Level != report.Note { // as much is free as makers leave
			t.Fatalf("%s: no note %q", c.template, c.said)
		}
		m := regexp.MustCompile(fmt.Sprintf(`set "%s" to (\d+) (mm|%%)`, c.setting)).FindStringSubmatch(f.Perhaps)
		if m == nil {
			t.Fatalf("%s: no advice on %q in: %s", c.template, c.setting, f.Perhaps)
		}
		var v float64
		fmt.Sscan(m[1], &v)
		if m[2] == "%" {
			v /= 100
		}
		c.with[c.setting] = pattern.Value{Number: v}
		o := pattern.Order{Template: c.template, Settings: c.with}
		if f, found := about(checked(t, form, o), "bends"); found {
			t.Errorf("%s with %s %s %s: %s", c.template, c.setting, m[1], m[2], f)
		}
	}
}

// A helm that ends under the chin lets the head turn and bow; one that hangs down
// on the shoulders does not.
func TestCheck_headMustTurn(t *testing.T) {
	form := wearer(t)
	for rim, kept := range map[string]bool{"chin - 15 mm": false, "chin - 90 mm": true} {
		helm := strings.NewReplacer("DRAW", "", "at: chin - 15 mm", "at: "+rim).Replace(closedHelm)
		found := fit.Check(made(t, form, helm), form).Findings
		_, turns := about(found, "when the head turns, ")
		_, bows := about(found, "when the head bows, ")
		if turns != kept || bows != kept {
			t.Errorf("rim at %s: kept from turning %v, from bowing %v; want %v", rim, turns, bows, kept)
		}
	}
}

const thighPlate = `
format: 1
title: Thigh plate
about: A tube round the thigh, down to the knee.
code: T
governs: [lower thigh girth]
thickness: 5 mm
ease: 6 mm
frame: {segment: thigh}
rings:
  - {name: knee rim, at: RIM}
  - {name: hip rim, at: 200 mm}
bands:
  - {name: tube, from: knee rim, to: hip rim, seams: {at: [0 deg]}}
gap: {at: 90 deg, width: 10 mm}
`

// A thigh plate down to the knee meets the greave on the same leg, and only
// there; one that ends far up does not.
func TestCheck_piecesMeetAcrossAJoint(t *testing.T) {
	form := wearer(t)
	level := map[string]pattern.Value{"knee arch": {}} // the back of a greave that reaches up as far as its front
	for _, c := range []struct {
		rim  string
		side body.Side
		met  bool
	}{{"0 mm", body.Right, true}, {"0 mm", body.Both, true}, {"150 mm", body.Right, false}} {
		set := made(t, form, strings.Replace(thighPlate, "RIM", c.rim, 1))
		greave, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "greave", Template: "greave", Side: c.side, Settings: level}}, templates.FS, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		plate := set.Pieces[0]
		plate.Name, plate.Side, plate.Copies = "thigh plate", body.Both, 2 // as a pair
		both := &pattern.Set{Pieces: []pattern.Piece{plate, greave.Pieces[0]}}
		if f, met := about(fit.Check(both, form).Findings, "meets the thigh plate"); met != c.met {
			t.Errorf("rim at %s, greave %q: met %v, want %v %s", c.rim, c.side, met, c.met, f)
		}
	}
}

// Less free than makers leave is a doubt.
func TestCheck_jointLeftTooLittle(t *testing.T) {
	long := pattern.Order{Template: "sleeve", Settings: map[string]pattern.Value{"reach": {Number: .88}}}
	f, found := about(checked(t, wearer(t), long), "when the elbow bends")
	if !found || f.Level != report.Doubt {
		t.Errorf("a sleeve up to 30 mm from the elbow: got %v, want a doubt", f)
	}
}
