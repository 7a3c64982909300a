package pattern_test

import (
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// sides are words of panels' names, and the axis that one side lies farther along
// than the other, on the body. What a limb has outside is farther left on the left
// one.
var sides = []struct {
	far, near string
	along     r3.Vec
}{
	{"front", "back", r3.Vec{Z: 1}},
	{"left", "right", r3.Vec{X: 1}},
	{"outer", "inner", r3.Vec{X: 1}},
}

// checkSides wants a panel that is called after a side to lie on that side of those
// of the piece that are called after the other one.
func checkSides(t *testing.T, p *pattern.Piece) {
	t.Helper()
	if p.Side == body.Right {
		return
	}
	for _, s := range sides {
		if s.far == "outer" && p.Free { // rings of a shield
			continue
		}
		far, okFar := middleOfNamed(p, s.far)
		near, okNear := middleOfNamed(p, s.near)
		if okFar && okNear && r3.Dot(r3.Sub(far, near), s.along) <= 0 {
			t.Errorf("what it calls %s lies at %.0f and what it calls %s at %.0f mm", s.far, r3.Dot(far, s.along), s.near, r3.Dot(near, s.along))
		}
	}
}

// middleOfNamed is the mean, on the body, of the panels of the shell with a word in their
// names; those that are printed once for both sides are of neither.
func middleOfNamed(p *pattern.Piece, word string) (mean r3.Vec, ok bool) {
	n := 0.0
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != pattern.OfShell || panel.Flipped > 0 && p.Copies < 2 || !slices.Contains(strings.Fields(panel.Name), word) {
			continue
		}
		for _, v := range panel.Surface.Bent {
			mean, n = r3.Add(mean, p.Frame.Point(v)), n+1
		}
	}
	return r3.Scale(1/max(n, 1), mean), n > 0
}
