package pattern

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// Of panels cut alike round a shield, the two ends of a strap are on copies that are
// neighbours, the grip's opposite the arm's; and the next copy joins the one before it
// at the edge that the note tells.
func TestCopies_sayWhichOneAStrapIsOn(t *testing.T) {
	set, _, err := Make(context.Background(), []Order{{Name: "round shield", Template: "round-shield"}}, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	p := &set.Pieces[0]
	on := map[string][]int{}
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, m := range panel.Marks {
			var k, n int
			if _, err := fmt.Sscanf(m.Only, "only on copy %d of %d", &k, &n); err != nil {
				continue
			}
			name, _, _ := strings.Cut(m.Text, ",")
			if on[name] = append(on[name], k); n != 6 {
				t.Errorf("%q: the shield has 6 copies", m.Text)
			}
			for copy := range p.CopiesOf(panel) {
				if has := p.HasMark(panel, m, copy); has != (copy+1 == k) {
					t.Errorf("%q: copy %d has it: %t", m.Text, copy+1, has)
				}
			}
			if !slices.ContainsFunc(p.Notes, func(s string) bool { return strings.HasPrefix(s, "Number the 6 copies of "+panel.Label) }) {
				t.Errorf("no note of the shield's on how to number the copies of %s: %q", panel.Label, p.Notes)
			}
			joinsAsNoted(t, panel)
		}
	}
	arm, grip := on["arm strap 1"], on["hand grip 2"]
	if len(arm) != 2 || len(grip) != 2 || stepsApart(arm[0], arm[1]) != 1 || stepsApart(grip[0], grip[1]) != 1 || stepsApart(arm[0], grip[0]) != 3 || stepsApart(arm[1], grip[1]) != 3 {
		t.Errorf("the arm strap is on copies %v, the grip on %v; want neighbours, and the grip opposite", arm, grip)
	}
}

// stepsApart is how many steps apart two of six copies in a ring stand.
func stepsApart(a, b int) int {
	d := (a - b + 12) % 6
	return min(d, 6-d)
}

func joinsAsNoted(t *testing.T, panel *Panel) {
	note := strings.Join(panel.Notes, " ")
	side := r2.Vec{X: panel.Up.Y, Y: -panel.Up.X} // right of what is up
	if strings.Contains(note, "at its left edge") {
		side = r2.Scale(-1, side)
	} else if !strings.Contains(note, "at its right edge") {
		t.Fatalf("%s: no note on how its copies are numbered: %q", panel.Label, note)
	}
	far := 0
	for i, q := range panel.Surface.Flat {
		if r2.Dot(q, side) > r2.Dot(panel.Surface.Flat[far], side) {
			far = i
		}
	}
	least := math.Inf(1)
	for _, v := range panel.Surface.Bent {
		least = min(least, geom.Dist(panel.alike[0].Point(v), panel.Surface.Bent[far]))
	}
	if least > 0.1 {
		t.Errorf("%s: copy 2 comes within %.1f mm of the edge of copy 1 that is noted", panel.Label, least)
	}
}
