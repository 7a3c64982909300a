package pattern_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// Sizes that differ in the last digits alone give the same panels: nothing that
// shows is chosen by rounding, which differs between processors.
func TestMake_lastDigitsChooseNothing(t *testing.T) {
	const other = 1 + 1e-12
	a, b := drawTape(*first), drawTape(*first)
	for i := range b.Entries {
		b.Entries[i].Value *= other
	}
	forms := [2]*body.Form{formOf(t, a), formOf(t, b)}
	for _, name := range catalogue(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var sets [2]*pattern.Set
			for k, form := range forms {
				orders := ordersFor(t, name)
				last := &orders[len(orders)-1]
				last.Settings = settingsFor(t, *last, *first+1)
				var err error
				if sets[k], _, err = pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5}); err != nil {
					t.Fatal(err)
				}
			}
			for i := range sets[0].Pieces {
				samePanels(t, &sets[0].Pieces[i], &sets[1].Pieces[i])
			}
		})
	}
}

// samePanels holds two pieces to the same panels, edges, notches and lines.
func samePanels(t *testing.T, p, q *pattern.Piece) {
	t.Helper()
	if len(p.Panels) != len(q.Panels) {
		t.Fatalf("%s has %d panels and %d", p.Name, len(p.Panels), len(q.Panels))
	}
	for i := range p.Panels {
		a, b := &p.Panels[i], &q.Panels[i]
		if len(a.Edges) != len(b.Edges) || len(a.Marks) != len(b.Marks) {
			t.Fatalf("%s %s has %d edges and %d marks, and %d and %d", p.Name, a.Label, len(a.Edges), len(a.Marks), len(b.Edges), len(b.Marks))
		}
		sameLine(t, p.Name+" "+a.Label+": outline", a.Outline, b.Outline)
		for k := range a.Edges {
			where := fmt.Sprintf("%s %s: edge %d", p.Name, a.Label, k)
			sameLine(t, where, a.Edges[k].Line, b.Edges[k].Line)
			sameLine(t, where+", notches", strokes(a.Edges[k]), strokes(b.Edges[k]))
		}
		for k := range a.Marks {
			sameLine(t, fmt.Sprintf("%s %s: mark %d", p.Name, a.Label, k), a.Marks[k].Line, b.Marks[k].Line)
		}
	}
}

// strokes are the ends of an edge's notches, 10 mm long.
func strokes(e pattern.Edge) (ends []r2.Vec) {
	for _, n := range e.Notches {
		ends = append(ends, n.P, r2.Add(n.P, r2.Scale(10, n.In)))
	}
	return ends
}

func sameLine(t *testing.T, what string, a, b []r2.Vec) {
	t.Helper()
	const most = 1e-3 // mm
	if len(a) != len(b) {
		t.Errorf("%s has %d points and %d", what, len(a), len(b))
		return
	}
	worst := 0.0
	for i := range a {
		worst = math.Max(worst, geom.Dist(a[i], b[i]))
	}
	if !(worst < most) {
		t.Errorf("%s lies %g mm away", what, worst)
	}
}
