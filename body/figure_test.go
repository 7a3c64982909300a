package body_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// The figure is the skin in fewer triangles: its corners lie on the fine mesh,
// and it holds the same within 2 %.
func TestFigure_isTheSkin(t *testing.T) {
	f := someone(t, nil)
	fine, figure := f.Mesh(), f.Figure()
	if len(figure.T) > len(fine.T)/5 {
		t.Errorf("the figure has %d triangles, the skin %d; want a fifth at most", len(figure.T), len(fine.T))
	}
	if got, want := holds(figure), holds(fine); math.Abs(got-want) > 0.02*want {
		t.Errorf("the figure holds %.1f l, the skin %.1f", got/1e6, want/1e6)
	}
	skin := geom.NewLocator(fine)
	for i, v := range figure.V {
		if i%11 > 0 {
			continue
		}
		if _, on := skin.Nearest(v); r3.Norm(r3.Sub(on, v)) > 0.5 {
			t.Errorf("corner %v of the figure lies %.2f mm off the skin", v, r3.Norm(r3.Sub(on, v)))
		}
	}
}

// holds is what closed meshes hold, mm³, where they overlap more than once.
func holds(m geom.Mesh) float64 {
	sum := 0.0
	for _, t := range m.T {
		sum += r3.Dot(m.V[t[0]], r3.Cross(m.V[t[1]], m.V[t[2]])) / 6
	}
	return sum
}
