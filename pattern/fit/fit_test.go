package fit_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/pattern/fit"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func wearer(t testing.TB) *body.Form {
	t.Helper()
	return tall(t, 1680)
}

func tall(t testing.TB, stature float64) *body.Form {
	t.Helper()
	m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: body.Woman, Age: 30, Entries: []body.Entry{
		{Name: "stature", Value: stature}, {Name: "weight", Value: 64}, {Name: "head girth", Value: 565}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	return form
}

// made builds one piece of a template of its own.
func made(t *testing.T, form *body.Form, yaml string) *pattern.Set {
	t.Helper()
	files := fstest.MapFS{"piece.yaml": {Data: []byte(yaml)}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "piece", Template: "piece", Side: body.Left}}, files, form, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

const closedHelm = `
format: 1
title: Bucket
about: A closed helm that narrows towards the neck.
code: B
governs: [head girth]
thickness: 5 mm
ease: 8 mm
mirror: true
DRAW
frame: {segment: head}
rings:
  - {name: neck, at: chin - 15 mm}
  - {name: brow, at: brow}
  - {name: top, at: crown, section: crown - 40 mm}
bands:
  - {name: lower, from: neck, to: brow, seams: {at: [90 deg, 270 deg]}}
  - {name: upper, from: brow, to: top, seams: {at: [90 deg, 270 deg]}}
cap: {kind: plate}
`

// A helm that follows the neck in cannot be drawn on; one that is drawn on can.
func TestCheck_helmMustGoOverTheHead(t *testing.T) {
	form := wearer(t)
	for draw, tight := range map[string]bool{"": true, "draw: down": false} {
		set := made(t, form, strings.Replace(closedHelm, "DRAW", draw, 1))
		found := said(fit.Check(set, form).Findings, "does not pass into it")
		if found != tight {
			t.Errorf("with %q: found too narrow: %v, want %v", draw, found, tight)
		}
	}
}

func said(fs []report.Finding, what string) bool {
	for _, f := range fs {
		if strings.Contains(f.Said, what) {
			return true
		}
	}
	return false
}

const tube = `
format: 1
title: Tube
about: A tube round the forearm.
code: T
governs: [wrist girth]
thickness: 5 mm
ease: EASE
frame: {segment: forearm}
rings:
  - {name: wrist rim, at: wrist + 10 mm}
  - {name: elbow rim, at: forearm}
bands:
  - {name: tube, from: wrist rim, to: elbow rim, seams: {at: [0 deg]}}
GAP
`

// A tight tube keeps the hand out; with a gap, or wide enough, it does not.
func TestCheck_handMustPassTheCuff(t *testing.T) {
	form := wearer(t)
	for _, c := range []struct {
		ease, gap string
		tight     bool
	}{
		{"3 mm", "", true},
		{"3 mm", "gap: {at: 180 deg, width: 20 mm}", false},
		{"25 mm", "", false},
	} {
		set := made(t, form, strings.NewReplacer("EASE", c.ease, "GAP", c.gap).Replace(tube))
		if found := said(fit.Check(set, form).Findings, "does not open"); found != c.tight {
			t.Errorf("ease %s, %q: found too narrow: %v, want %v", c.ease, c.gap, found, c.tight)
		}
	}
}

// What is seen through a level slit of height w at a distance e is
// 2·atan(w/2e). Source: plane geometry, one eye, a flat opening without
// thickness.
func TestSightOf_slit(t *testing.T) {
	form := wearer(t)
	part, _ := form.Part(body.Head, body.Both)
	eyes := form.Eyes()
	left, right := part.Frame.Local(eyes[0]), part.Frame.Local(eyes[1])
	const e, w = 40.0, 36.0
	y, z := left.Y, left.Z+e
	wall := func(low, high float64) pattern.Panel {
		const wide = 2000
		flat := []r2.Vec{{X: -wide, Y: low}, {X: wide, Y: low}, {X: wide, Y: high}, {X: -wide, Y: high}}
		p := pattern.Panel{Copies: 1, Outline: flat, Edges: []pattern.Edge{{Kind: pattern.Rim, Line: append(flat, flat[0])}}}
		p.Surface.Flat, p.Surface.T = flat, [][3]int{{0, 1, 2}, {0, 2, 3}}
		for _, q := range flat {
			p.Surface.Bent = append(p.Surface.Bent, r3.Vec{X: q.X, Y: q.Y, Z: z})
		}
		return p
	}
	piece := &pattern.Piece{Name: "slit", Copies: 1, K: 0.5, Frame: part.Frame, Segment: body.Head,
		Panels: []pattern.Panel{wall(y+w/2, y+900), wall(y-900, y-w/2)}}
	want := 2 * math.Atan(w/2/e) * 180 / math.Pi
	got := fit.SightOf(piece, form)
	if math.Abs(float64(got.High)-want) > 1.5 {
		t.Errorf("%d° high, want %.1f°; the eyes are at %v and %v", got.High, want, left, right)
	}
	if got.Wide != 200 {
		t.Errorf("%d° wide along an endless slit, want all 200", got.Wide)
	}
}
