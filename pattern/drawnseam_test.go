package pattern_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// seamBetween is the number of the seam between two panels by name.
func seamBetween(t *testing.T, p *pattern.Piece, a, b string) string {
	t.Helper()
	for _, s := range p.Seams {
		for _, sp := range s.Spans {
			x, y := p.Panels[sp.Sides[0].Panel].Name, p.Panels[sp.Sides[1].Panel].Name
			if x == a && y == b || x == b && y == a {
				return fmt.Sprint(s.Number)
			}
		}
	}
	t.Fatalf("no seam between %s and %s", a, b)
	return ""
}

// inSpace are the lines of a piece's seams, and their images.
func inSpace(p *pattern.Piece) [][]r3.Vec {
	var out [][]r3.Vec
	for _, s := range p.Seams {
		out = append(out, s.Line, image(s.Line))
	}
	return out
}

// A seam known in space, drawn through a lens in place of one of the template's,
// is where it was on both of its sides, on both halves, and every seam still
// closes; the old seam is gone.
func TestDrawn_seamComesBack(t *testing.T) {
	for i := range max(*bodies/25, 1) {
		form := drawBody(t, i)
		o := sweepOrder("helm")
		o.Settings = withoutHoles(o)
		plain, _, err := madeFor(o, templates.FS, form)
		if err != nil {
			t.Fatal(err)
		}
		low, _ := levelsOf(plain)
		l := geom.NewLocator(wholeShell(plain))
		brow := plain.Panels[0].Surface.Bent[0].Y
		for _, panel := range plain.Panels {
			if panel.Name == "face" {
				for _, v := range panel.Surface.Bent {
					brow = max(brow, v.Y)
				}
			}
		}
		curve := func(n int, from, to float64) []r3.Vec { // bowed, from rim to brow
			var pts []r2.Vec
			for k := range n {
				u := float64(k) / float64(n-1)
				pts = append(pts, r2.Vec{X: 62 - 12*math.Sin(math.Pi*u), Y: from + u*(to-from)})
			}
			return onShell(t, l, pts)
		}
		d := drawnThrough(plain, r3.Vec{X: 300, Y: 20, Z: 1450}, curve(14, low+0.5, brow-0.5))
		d.Kind, d.Name = pattern.DrawnSeam, seamBetween(t, plain, "face", "cheek")
		o.Drawn = []pattern.Drawn{d}
		p, found, err := madeFor(o, templates.FS, form)
		if err != nil {
			t.Fatal(err)
		}
		pattern.CheckPiece(t, p)
		if len(p.Panels) != len(plain.Panels) || len(p.Seams) != len(plain.Seams) {
			t.Errorf("%d panels and %d seams, the template has %d and %d (%v)", len(p.Panels), len(p.Seams), len(plain.Panels), len(plain.Seams), found)
		}
		truth := [][]r3.Vec{curve(800, low+0.5, brow-0.5)}
		if off := runsOff(truth, inSpace(p)); off > 0.2 {
			t.Errorf("the curve runs %.3f mm off the seam", off)
		}
		for _, s := range plain.Seams {
			if fmt.Sprint(s.Number) == d.Name {
				if off := runsOff([][]r3.Vec{s.Line}, inSpace(p)); off < 3 {
					t.Errorf("the old seam is still there, within %.1f mm", off)
				}
			}
		}
	}
}

// A seam may run over bands, across an opening and a drawn rim, and is cut off
// there; on a limb it stands besides the others.
func TestDrawn_seamAcrossOthers(t *testing.T) {
	form := drawBody(t, 1)
	o := sweepOrder("gores")
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	low, high := levelsOf(plain)
	eye := r3.Vec{X: 1500, Y: 20, Z: 20}
	side := func(at ...[2]float64) pattern.Drawn {
		var pts []r3.Vec
		for _, q := range at {
			pts = append(pts, r3.Vec{Z: q[0], Y: q[1]})
		}
		d := drawnThrough(plain, eye, pts)
		d.Kind, d.Name = pattern.DrawnSeam, "new"
		return d
	}
	rim := rimAt(plain, low, 30, 20)
	down := side([2]float64{20, high - 90}, [2]float64{25, low + 60}, [2]float64{22, low - 5})
	level := side([2]float64{200, low + 80}, [2]float64{0, low + 95}, [2]float64{-200, low + 70})
	ear := side([2]float64{-25, low + 70}, [2]float64{15, low + 70}, [2]float64{15, low + 110}, [2]float64{-25, low + 110})
	ear.Kind, ear.Name = pattern.DrawnOpening, "ear"
	for what, drawn := range map[string][]pattern.Drawn{
		"level":                    {level},
		"level, over an ear":       {level, ear},
		"level, over a rim":        {level, rim},
		"level, ear and rim":       {level, ear, rim},
		"two that end at each rim": {level, side([2]float64{200, low + 45}, [2]float64{0, low + 50}, [2]float64{-200, low + 45}), rim},
	} {
		o.Drawn = drawn
		p, _, err := madeFor(o, templates.FS, form)
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		pattern.CheckPiece(t, p)
		if len(p.Panels) <= len(plain.Panels) || len(p.Seams) <= len(plain.Seams) {
			t.Errorf("%s: %d panels and %d seams, no more than the template's %d and %d", what, len(p.Panels), len(p.Seams), len(plain.Panels), len(plain.Seams))
		}
	}
	o.Drawn = []pattern.Drawn{down}
	if _, _, err := madeFor(o, templates.FS, form); err == nil || !strings.Contains(err.Error(), "ends inside a panel") {
		t.Errorf("a seam that ends inside a panel: %v", err)
	}
}

func TestDrawn_seamOnALimb(t *testing.T) {
	form := drawBody(t, 2)
	o := sweepOrder("vambrace")
	o.Side = body.Left
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	mid, span := middleOf(plain, 0.5)
	var pts []r3.Vec
	for k := -4; k <= 4; k++ {
		pts = append(pts, r3.Add(mid, r3.Vec{X: 8 * math.Sin(float64(k)), Y: float64(k) / 8.5 * span}))
	}
	d := drawnThrough(plain, r3.Vec{X: 100, Y: 100, Z: 1500}, pts)
	d.Kind, d.Name = pattern.DrawnSeam, "new"
	o.Drawn = []pattern.Drawn{d}
	p, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, p)
	if len(p.Panels) != len(plain.Panels)+1 {
		t.Errorf("%d panels, want one more than %d", len(p.Panels), len(plain.Panels))
	}
}

func TestDrawn_seamsThatCannotBe(t *testing.T) {
	form := drawBody(t, 0)
	o := sweepOrder("helm")
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	low, _ := levelsOf(plain)
	at := func(name string, xs ...float64) pattern.Drawn {
		var pts []r3.Vec
		for k, x := range xs {
			pts = append(pts, r3.Vec{X: x, Y: low + float64(k)*60, Z: 100})
		}
		d := drawnThrough(plain, r3.Vec{Z: 1500}, pts)
		d.Kind, d.Name = pattern.DrawnSeam, name
		return d
	}
	for said, d := range map[string]pattern.Drawn{
		"it has 1 to":                   at("99", 50, 50, 50),
		"or \"new\"":                    at("cheek", 50, 50, 50),
		"it runs round the piece":       at("seam "+seamBetween(t, plain, "face", "forehead"), 50, 50, 50),
		"runs along the middle":         at("new", 0, 1, 0),
		"goes across the middle":        at("new", -40, 0, 40),
		"none of its curve lies on the": at("new", 400, 400, 400),
	} {
		o.Drawn = []pattern.Drawn{d}
		if _, _, err := madeFor(o, templates.FS, form); err == nil || !strings.Contains(err.Error(), said) {
			t.Errorf("%v; want it to say %q", err, said)
		}
	}
}
