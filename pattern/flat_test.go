package pattern_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

func makeFlat(f pattern.Flat) (*pattern.Set, []report.Finding, error) {
	o := pattern.Order{Name: "blade", Flat: &f, Thickness: 10, Where: "costume.yaml:7"}
	return pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, nil, pattern.Material{K: 0.5})
}

// An ellipse by 24 points comes back with its axes, and with its area and
// length round. Source: area π·a·b; length by Ramanujan's second formula (1914).
func TestFlat_ellipse(t *testing.T) {
	const a, b = 160.0, 45.0
	var pts []r2.Vec
	for i := range 24 {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / 24) // clockwise, as a maker may draw
		pts = append(pts, r2.Vec{X: 500 + a*c, Y: -80 + b*s})
	}
	set, found, err := makeFlat(pattern.Flat{Points: pts, Share: 0.02, Known: true})
	if err != nil {
		t.Fatal(err)
	}
	p := &set.Pieces[0]
	if len(found) > 0 || p.Draft || len(p.Panels) != 1 || len(p.Governs) > 0 {
		t.Errorf("findings %v, draft %v, %d panels, %d governing sizes; want a ready piece of one panel", found, p.Draft, len(p.Panels), len(p.Governs))
	}
	outline := p.Panels[0].Outline
	box := geom.Bounds(outline)
	if w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y; math.Abs(w-2*a) > 0.05 || math.Abs(h-2*b) > 0.05 {
		t.Errorf("%.3f × %.3f mm, want %.0f × %.0f", w, h, 2*a, 2*b)
	}
	if got := geom.Area(outline); math.Abs(got-math.Pi*a*b) > 0.002*math.Pi*a*b {
		t.Errorf("an area of %.1f mm², want %.1f within 0.2 %%, counter-clockwise", got, math.Pi*a*b)
	}
	h := (a - b) * (a - b) / ((a + b) * (a + b))
	if want := math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h))); math.Abs(p.Panels[0].Edges[0].Length-want) > 0.5 {
		t.Errorf("%.2f mm round, want %.2f", p.Panels[0].Edges[0].Length, want)
	}
	if !strings.Contains(p.Notes[0], "320 mm long ± 6.4 mm and 90 mm across ± 1.8 mm") {
		t.Errorf("the piece says %q", p.Notes[0])
	}
}

// Over 5 % a traced piece is a draft that says what to give; up to it, it is not.
func TestFlat_draftByItsError(t *testing.T) {
	square := []r2.Vec{{}, {X: 100}, {X: 100, Y: 60}, {Y: 60}}
	corners := []bool{true, true, true, true}
	for share, draft := range map[float64]bool{0.05: false, 0.051: true} {
		set, found, err := makeFlat(pattern.Flat{Points: square, Corner: corners, Share: share})
		if err != nil {
			t.Fatal(err)
		}
		if p := set.Pieces[0]; p.Draft != draft || (report.Worst(found) == report.Problem) != draft || draft && !strings.Contains(p.DraftWhy, "known") {
			t.Errorf("an error of %g: draft %v (%s), findings %v", share, p.Draft, p.DraftWhy, found)
		}
	}
}

func TestFlat_badOutlines(t *testing.T) {
	square := []r2.Vec{{}, {X: 100}, {X: 100, Y: 60}, {Y: 60}}
	scaled := func(k float64) []r2.Vec {
		var out []r2.Vec
		for _, p := range square {
			out = append(out, r2.Scale(k, p))
		}
		return out
	}
	all := []bool{true, true, true, true}
	for name, c := range map[string]struct {
		flat pattern.Flat
		said string
	}{
		"two points":   {pattern.Flat{Points: square[:2]}, "three are the least"},
		"bow tie":      {pattern.Flat{Points: []r2.Vec{{}, {X: 100, Y: 60}, {X: 100}, {Y: 60}}, Corner: all}, "crosses itself, between points 1 and 3"},
		"a point over": {pattern.Flat{Points: append(square, square[0])}, "points 5 and 1 of its outline are one place"},
		"too long":     {pattern.Flat{Points: scaled(50), Corner: all}, "5000 mm long"},
		"too narrow":   {pattern.Flat{Points: scaled(0.1), Corner: all}, "6 mm across"},
		"not a number": {pattern.Flat{Points: []r2.Vec{{}, {X: math.NaN()}, {Y: 60}}}, "point 2 of its outline has no place"},
		"corners":      {pattern.Flat{Points: square, Corner: all[:2]}, "of 2 it is said"},
	} {
		_, _, err := makeFlat(c.flat)
		if err == nil || !strings.Contains(err.Error(), c.said) || !strings.HasPrefix(err.Error(), "costume.yaml:7: blade: ") {
			t.Errorf("%s: %v; want it to say %q", name, err, c.said)
		}
	}
}
