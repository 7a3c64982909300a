package pattern

import (
	"context"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"
)

// No two fastenings of a suit are marked on one place of a panel: nothing can be
// glued on a patch.
func TestPatches_noTwoOnOnePlace(t *testing.T) {
	var orders []Order
	for _, name := range []string{"sabaton", "backplate", "breastplate", "faulds", "tassets", "rerebrace", "gorget", "pauldron"} {
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
					x, y := geom.Bounds(a.Line), geom.Bounds(b.Line)
					if w, h := min(x.Max.X, y.Max.X)-max(x.Min.X, y.Min.X), min(x.Max.Y, y.Max.Y)-max(x.Min.Y, y.Min.Y); w > 1 && h > 1 {
						t.Errorf("%s: %q and %q share %.0f x %.0f mm", p.Panels[i].Label, b.Text, a.Text, w, h)
					}
				}
			}
		}
	}
}
