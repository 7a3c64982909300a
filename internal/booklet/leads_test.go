package booklet

import (
	"testing"

	"tasset/internal/draw"
	"tasset/internal/view"

	"gonum.org/v1/gonum/spatial/r2"
)

// Of a tube drawn so small that no panel has room for its label, each is named beside
// the drawing it is seen in, with a line from clear paper to the panel.
func TestWriteBeside_namesEachPanelOnce(t *testing.T) {
	p := tube(4)
	s := pieceScene(p)
	box := draw.Rect{Max: r2.Vec{X: 60, Y: 80}}
	from := standpoints(s.labels)
	var both [2]*lettering
	for i := range both {
		both[i] = labelled(view.Scaled(s.scene, from[i].cam, box, 0.03), from[i].cam, s.labels, box)
	}
	before := len(both[0].placed) + len(both[1].placed)
	for _, d := range both {
		for _, l := range d.placed {
			if !l.seam {
				t.Fatalf("%s has room at this scale; the test shows nothing", l.text)
			}
		}
	}
	writeBeside(p, both)
	named := map[string]int{}
	for _, d := range both {
		for i, l := range d.placed {
			if l.seam {
				continue
			}
			named[l.text]++
			b := d.taken[i]
			if d.v.Covers(b.Min) || d.v.Covers(b.Max) || d.v.Covers(r2.Scale(0.5, r2.Add(b.Min, b.Max))) || !within(b, box) || covered(b, append(append([]r2.Box{}, d.taken[:i]...), d.taken[i+1:]...)) {
				t.Errorf("%s stands on something else", l.text)
			}
		}
		for _, l := range d.leads {
			if !d.v.Covers(l[1]) || d.v.Covers(l[0]) {
				t.Errorf("a line runs from %v to %v, not from clear paper to the piece", l[0], l[1])
			}
		}
	}
	if len(named) != 4 || len(both[0].placed)+len(both[1].placed) != before+4 {
		t.Errorf("named %v; want each of the four panels once", named)
	}
}
