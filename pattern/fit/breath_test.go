package fit_test

import (
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/pattern/fit"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// faceWall is a flat wall before the face, so far in front of the mouth, with a
// window of so many mm below the mouth.
func faceWall(form *body.Form, wide, high float64) *pattern.Piece {
	head, _ := form.Part(body.Head, body.Both)
	mouth, _ := head.Station("mouth")
	at := head.Point(0, mouth)
	const half, before = 400.0, 30.0
	flat := []r2.Vec{{X: -half, Y: -half}, {X: half, Y: -half}, {X: half, Y: half}, {X: -half, Y: half}}
	p := pattern.Panel{Copies: 1, Outline: flat, Edges: []pattern.Edge{{Kind: pattern.Rim, Line: append(flat[:4:4], flat[0])}}}
	if wide > 0 {
		p.Holes = [][]r2.Vec{{{X: -wide / 2, Y: -10}, {X: -wide / 2, Y: -10 + high}, {X: wide / 2, Y: -10 + high}, {X: wide / 2, Y: -10}}}
	}
	const cells = 80 // of 10 mm
	for i := range cells + 1 {
		for j := range cells + 1 {
			q := r2.Vec{X: 10*float64(j) - half, Y: 10*float64(i) - half}
			p.Surface.Flat = append(p.Surface.Flat, q)
			p.Surface.Bent = append(p.Surface.Bent, r3.Vec{X: q.X, Y: mouth + q.Y, Z: at.Z + before})
			if k := i*(cells+1) + j; i < cells && j < cells {
				p.Surface.T = append(p.Surface.T, [3]int{k, k + 1, k + cells + 2}, [3]int{k, k + cells + 2, k + cells + 1})
			}
		}
	}
	return &pattern.Piece{Name: "wall", Copies: 1, K: 0.5, Thickness: 0.01, Frame: head.Frame, Segment: body.Head, Panels: []pattern.Panel{p}}
}

// The open area of a flat window is its width times its height, wherever the
// mouth looks at it from. Source: plane geometry.
func TestAirOf_window(t *testing.T) {
	form := wearer(t)
	for _, c := range [][2]float64{{40, 25}, {60, 10}, {25, 25}} {
		a := fit.AirOf(faceWall(form, c[0], c[1]), form)
		if want := c[0] * c[1]; math.Abs(a.Openings-want) > 0.1*want {
			t.Errorf("window of %g by %g mm: %.0f mm², want %.0f", c[0], c[1], a.Openings, want)
		}
	}
	if a := fit.AirOf(faceWall(form, 0, 0), form); a.Openings != 0 || a.Covered < 0.99 {
		t.Errorf("a whole wall: %.0f mm² open, %.2f covered", a.Openings, a.Covered)
	}
}

// What is open round the neck grows with the area of the tube round it. Source:
// the area of a circle.
func TestAirOf_neck(t *testing.T) {
	form := wearer(t)
	head, _ := form.Part(body.Head, body.Both)
	rim := func(r float64) float64 {
		p := roundTube(r, -130, 100)
		p.Frame = head.Frame
		return fit.AirOf(p, form).Rim
	}
	want := math.Pi * (159.5*159.5 - 139.5*139.5)
	if got := rim(160) - rim(140); math.Abs(got-want) > 0.01*want {
		t.Errorf("a tube of 160 mm instead of 140 leaves %.0f mm² more, want %.0f", got, want)
	}
}

// A closed face is a problem, the built-in helm has holes, and a helmet that
// leaves the face free has nothing said of it.
func TestCheck_breath(t *testing.T) {
	form := wearer(t)
	found := fit.Check(&pattern.Set{Pieces: []pattern.Piece{*faceWall(form, 0, 0)}}, form).Findings
	if f, _ := about(found, "air reaches the mouth"); f.Level.String() != "problem" {
		t.Errorf("a wall before the face: %v", f)
	}
	if f, told := about(checked(t, form, pattern.Order{Template: "helm"}), "air reaches the mouth"); !told || !strings.Contains(f.Said, "checked") {
		t.Errorf("helm: %v", f)
	}
	for breaths, want := range map[float64]string{0: "problem", 3: "note"} { // 3 is its own
		with := map[string]pattern.Value{"layout": {Number: 1, Typed: "lower"}, "breaths": {Number: breaths}}
		if f, _ := about(checked(t, form, pattern.Order{Template: "half-mask", Settings: with}), "air reaches the mouth"); f.Level.String() != want {
			t.Errorf("half mask before the mouth, %g holes a row: %v, want a %s", breaths, f, want)
		}
	}
	if f, told := about(checked(t, form, pattern.Order{Template: "open-helmet"}), "air reaches the mouth"); told {
		t.Errorf("open helmet: %v", f)
	}
}
