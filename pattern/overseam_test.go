package pattern

import (
	"context"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// Over a straight seam of two flat panels an outline goes on where it is, and over the
// seam of a panel with its mirror image it is mirrored; one that ends before the seam
// does not come over it.
func TestUnfolded(t *testing.T) {
	right := Edge{Line: []r2.Vec{{X: 60}, {X: 60, Y: 100}}, Length: 100, Along: true}
	left := Edge{Line: []r2.Vec{{Y: 100}, {}}, Length: 100}
	ring := around(r2.Vec{X: 50, Y: 50}, 40, 20, true)
	for _, c := range []struct {
		name  string
		there Edge
		want  func(r2.Vec) r2.Vec
	}{
		{"the next panel", left, func(q r2.Vec) r2.Vec { return r2.Vec{X: q.X - 60, Y: q.Y} }},
		{"its mirror image", right, func(q r2.Vec) r2.Vec { return r2.Vec{X: 120 - q.X, Y: q.Y} }},
	} {
		over, ok := unfolded(ring, &right, &c.there)
		if !ok {
			t.Fatalf("%s: it does not come there", c.name)
		}
		for i, q := range over {
			if geom.Dist(q, c.want(ring[i])) > 1e-9 {
				t.Errorf("%s: %v lies at %v, want %v", c.name, ring[i], q, c.want(ring[i]))
			}
		}
	}
	if over, ok := unfolded(around(r2.Vec{X: 38, Y: 50}, 40, 20, true), &right, &left); ok {
		t.Errorf("what ends 2 mm before the seam comes to %v", over)
	}
}

// A strap's patch that lies over seams is drawn on the panels there too: together they
// hold all of it.
func TestDrawRests(t *testing.T) {
	set, _, err := Make(context.Background(), []Order{{Name: "gorget", Template: "gorget"}, {Name: "spaulder", Template: "spaulder"}}, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	on := func(panel *Panel, ring []r2.Vec) (n int) {
		cover := panel.cover()
		for q := range placesIn(ring) {
			if cover.covers(q) {
				n++
			}
		}
		return n
	}
	whole, here, rests := 0, 0, 0
	for _, p := range set.Pieces {
		for i := range p.Panels {
			for _, m := range p.Panels[i].Marks {
				switch m.Text {
				case "strap 5, strap, inside, to the gorget":
					for range placesIn(m.Line) {
						whole++
					}
					here += on(&p.Panels[i], m.Line)
				case "rest of strap 5, strap, inside, to the gorget":
					rests += on(&p.Panels[i], m.Line)
				}
			}
		}
	}
	if here == whole || rests == 0 || here+rests < whole*98/100 {
		t.Errorf("of %d places in the patch %d lie on its panel and %d on the others", whole, here, rests)
	}
}
