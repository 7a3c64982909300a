package tile

import (
	"testing"

	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// A dash in a patch is moved up or down off it, the nearer way, and no farther than the
// panel goes; one beside it stays.
func TestDashesApart(t *testing.T) {
	strap := patch("strap 1", 20, 30, 20, 30)
	strap.Axis = []r2.Vec{{X: 30, Y: 30}, {X: 30, Y: 60}}
	dash := func(x, y float64) pattern.Mark {
		return pattern.Mark{Kind: "text", Text: "front", Line: []r2.Vec{{X: x - 4, Y: y}, {X: x + 4, Y: y}}}
	}
	panel := box("B1", "side", 80, 100)
	panel.Up, panel.Marks = r2.Vec{Y: 1}, []pattern.Mark{strap, dash(30, 35), dash(30, 56), dash(60, 40)}
	was := panel.Marks[1].Line[0].Y
	got := dashesApart(&panel)
	for i, want := range []float64{29, 62, 40} {
		if l := got.Marks[i+1].Line; l[0].Y != want || l[1].X-l[0].X != 8 {
			t.Errorf("dash %d lies at %v, want it at %g", i+1, l, want)
		}
	}
	if panel.Marks[1].Line[0].Y != was {
		t.Error("the panel itself has changed")
	}
	panel.Outline = []r2.Vec{{Y: 30.5}, {X: 80, Y: 30.5}, {X: 80, Y: 100}, {Y: 100}}
	if l := dashesApart(&panel).Marks[1].Line; l[0].Y < 60 {
		t.Errorf("of a panel that ends below the patch: %v, want it above", l)
	}
}
