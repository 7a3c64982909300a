package pattern

import (
	"context"
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// No two fastenings of a suit are marked on one place of a panel: nothing can be
// glued on a patch.
func TestPatches_noTwoOnOnePlace(t *testing.T) {
	var orders []Order
	for _, name := range []string{"sabaton", "backplate", "breastplate", "faulds", "tassets", "rerebrace", "gorget", "pauldron", "spaulder"} {
		orders = append(orders, Order{Name: name, Template: name})
	}
	set, _, err := Make(context.Background(), orders, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range set.Pieces {
		for i := range p.Panels {
			marks := p.Panels[i].Marks
			for j := range marks {
				for k := range j {
					a, b := marks[j], marks[k]
					if a.Kind != "fastening" || b.Kind != "fastening" || !a.Close || !b.Close {
						continue
					}
					if mm := shared(a.Line, b.Line); mm > 60 {
						t.Errorf("%s: %q and %q share %d mm²", p.Panels[i].Label, b.Text, a.Text, mm)
					}
				}
			}
		}
	}
}

// shared is how much of an outline lies in another, mm², counted in squares of 1 mm.
func shared(a, b []r2.Vec) (n int) {
	box := geom.Bounds(a)
	for x := box.Min.X + 0.5; x < box.Max.X; x++ {
		for y := box.Min.Y + 0.5; y < box.Max.Y; y++ {
			if q := (r2.Vec{X: x, Y: y}); geom.Inside(a, q) && geom.Inside(b, q) {
				n++
			}
		}
	}
	return n
}

// The two ends of a strap that a template asks for on either side of a panel's fold
// stand as far from it as each other, but for what the panel is uneven by, on the foam
// and apart.
func TestPatches_aPairMirrors(t *testing.T) {
	orders := []Order{{Name: "sabaton", Template: "sabaton"}, {Name: "gauntlet", Template: "gauntlet"}}
	set, _, err := Make(context.Background(), orders, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	pairs := 0
	for _, p := range set.Pieces {
		for i := range p.Panels {
			panel := &p.Panels[i]
			var ends []Mark
			for _, m := range panel.Marks {
				if strings.Contains(m.Text, "under the") || strings.Contains(m.Text, "through the palm") {
					ends = append(ends, m)
				}
			}
			if len(ends) != 2 {
				continue
			}
			pairs++
			holdsPair(t, panel, ends)
		}
	}
	if pairs != 3 {
		t.Errorf("%d straps with both ends on one panel, want 3", pairs)
	}
}

func holdsPair(t *testing.T, panel *Panel, ends []Mark) {
	var fold []r2.Vec
	for _, e := range panel.Edges {
		if e.Kind == Hinge {
			fold = append(fold, e.Line[0])
		}
	}
	one, other := away(fold, geom.Centroid(ends[0].Line)), away(fold, geom.Centroid(ends[1].Line))
	mirrored := !strings.Contains(ends[0].Text, "palm") // the thumb's side of a hand is open
	if mirrored && math.Abs(one-other) > 6 || min(one, other) < 30 {
		t.Errorf("%s: %q stands %.0f and %.0f mm from the fold", panel.Label, ends[0].Text, one, other)
	}
	if mm := shared(ends[0].Line, ends[1].Line); mm > 0 {
		t.Errorf("%s: both ends of %q share %d mm²", panel.Label, ends[0].Text, mm)
	}
	for _, m := range ends {
		if on, all := float64(shared(m.Line, panel.Outline)), math.Abs(geom.Area(m.Line)); on < 0.95*all {
			t.Errorf("%s: %.0f mm² of %.0f of %q lie on the panel", panel.Label, on, all, m.Text)
		}
	}
}

// away is how far a point lies from the straight line through a fold's ends.
func away(fold []r2.Vec, q r2.Vec) float64 {
	a, b := fold[0], fold[len(fold)-1]
	return math.Abs(r2.Cross(r2.Unit(r2.Sub(b, a)), r2.Sub(q, a)))
}

// How far one of two convex outlines must be moved to come off the other, in closed
// form: squares of 10 mm, upright and on a corner.
func TestDepth(t *testing.T) {
	half := 5 * math.Sqrt2
	diamond := []r2.Vec{{X: -half}, {Y: -half}, {X: half}, {Y: half}}
	for _, c := range []struct {
		at   r2.Vec
		ring []r2.Vec
		want float64
	}{
		{r2.Vec{X: 7}, around(r2.Vec{}, 10, 10, true), 3},
		{r2.Vec{X: 11}, around(r2.Vec{}, 10, 10, true), 0},
		{r2.Vec{X: 11}, diamond, half - 6},
		{r2.Vec{X: 10, Y: 10}, diamond, 0},
	} {
		if got := depth(around(c.at, 10, 10, true), c.ring); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("at %v: %.4f, want %.4f", c.at, got, c.want)
		}
	}
}
