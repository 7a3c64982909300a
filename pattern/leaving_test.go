package pattern_test

import (
	"context"
	"strings"
	"testing"

	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

// Straps leave their patches to where their other ends are, as everyone sees who wears
// them: over the shoulders upwards, round a leg that is open behind backwards.
func TestStraps_leaveToTheirOtherEnds(t *testing.T) {
	up, down, front, back := r3.Vec{Y: 1}, r3.Vec{Y: -1}, r3.Vec{Z: 1}, r3.Vec{Z: -1}
	var orders []pattern.Order
	for _, name := range []string{"backplate", "breastplate", "faulds", "tassets", "greave", "poleyn", "cuisse", "couter", "sabaton", "open-helmet", "skull-cap"} {
		orders = append(orders, pattern.Order{Name: name, Template: name})
	}
	set, _, err := pattern.Make(context.Background(), orders, templates.FS, drawBody(t, 0), pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		piece, strap string
		way          r3.Vec
		marks        int
	}{
		{"backplate", "side strap", front, 1}, {"backplate", "shoulder strap", up, 1}, {"backplate", "strap behind", down, 1},
		{"breastplate", "side strap", back, 1}, {"breastplate", "shoulder strap", up, 1}, {"breastplate", "strap 4", down, 1},
		{"faulds", "inner strap", down, 2}, {"faulds", "strap behind", up, 1}, {"faulds", "strap 4", up, 2}, {"tassets", "outer strap", up, 1},
		{"greave", "strap and buckle", back, 4}, {"poleyn", "strap behind", back, 2}, {"cuisse", "strap behind", back, 4},
		{"couter", "strap across", front, 2}, {"sabaton", "under", down, 4}, {"open-helmet", "chin strap", down, 1}, {"skull-cap", "chin strap", down, 1},
	} {
		n := 0
		for _, p := range set.Pieces {
			if p.Name != c.piece {
				continue
			}
			for i := range p.Panels {
				on := &p.Panels[i].Surface
				for _, m := range p.Panels[i].Marks {
					if len(m.Axis) != 2 || !strings.HasPrefix(m.Text, c.strap) {
						continue
					}
					n++
					if d := p.Frame.Dir(r3.Sub(on.Lift(m.Axis[1]), on.Lift(m.Axis[0]))); r3.Dot(d, c.way) < 0.2*r3.Norm(d) {
						t.Errorf("%s %s: %q leaves along %v, want %v", p.Name, p.Panels[i].Label, m.Text, r3.Unit(d), c.way)
					}
				}
			}
		}
		if n != c.marks {
			t.Errorf("%s: %d marks of its %q, want %d", c.piece, n, c.strap, c.marks)
		}
	}
}
