package pattern

import (
	"math"
	"strings"
	"testing"

	"tasset/internal/geom"
)

// A flat part that stands on edge on a tube is marked where its plane cuts the
// outer face: on a tube of outer radius R, a plane at a distance x from the axis
// meets it along two straight lines up the tube (closed form), each at the angle
// acos(x/R) from the plane's normal.
func TestMarkGlued_aPlaneThroughATube(t *testing.T) {
	const high = "flats:\n  - {name: fin, facing: left, x: 40 mm, y: 50 mm, z: 0 mm, points: [[0 mm, -30 mm], [120 mm, -30 mm], [120 mm, 30 mm], [0 mm, 30 mm]]}\n"
	p, _ := makeText(t, tube+high)
	found := 0
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, m := range panel.Marks {
			if !strings.Contains(m.Text, "fin stands here") {
				continue
			}
			found++
			if l := geom.Length(m.Line); math.Abs(l-60) > 2*gluedStep {
				t.Errorf("the line is %.1f mm long, want the fin's 60", l)
			}
			for _, q := range m.Line {
				at, out := panel.Surface.LiftWithNormal(q)
				if x := at.X + out.X*(1-p.K)*p.Thickness; math.Abs(x-40) > 0.5 {
					t.Errorf("the line lies at x = %.2f mm on the outer face, want 40", x)
				}
			}
		}
	}
	if found != 1 {
		t.Errorf("%d lines, want one: the fin lies before the axis only", found)
	}
}
