package booklet

import (
	"slices"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// From behind, a carried piece shows its straps, each from patch to patch; one that is
// worn has no such view.
func TestBackView(t *testing.T) {
	p := tube(4)
	p.Panels = p.Panels[:2] // it covers the left, and is seen from the right
	p.Straps = []pattern.Strap{{Kind: "strap", Name: "grip", Number: 1, Width: 20, From: "V1", To: "V2"}}
	for i, tip := range []float64{90, 10} { // towards each other
		base := 50.0
		p.Panels[i].Marks = []pattern.Mark{{Kind: "fastening", Text: "grip 1, inside", Close: true,
			Line: []r2.Vec{{X: tip, Y: 40}, {X: base, Y: 40}, {X: base, Y: 60}, {X: tip, Y: 60}}, Axis: []r2.Vec{{X: base, Y: 50}, {X: tip, Y: 50}}}}
	}
	if _, _, ok := backView(p); ok {
		t.Error("a piece that is worn is drawn from behind")
	}
	p.Free = true
	s, from, ok := backView(p)
	if !ok {
		t.Fatal("a piece that is carried is not drawn from behind")
	}
	if d := r3.Dot(from.cam.Eye(), r3.Vec{X: -1}); d < 0.99 {
		t.Errorf("it is seen from %v", from.cam.Eye())
	}
	patches, bands := 0, 0
	for _, l := range s.scene.Lines {
		switch {
		case l.Weight == view.Fold:
			patches++
		case len(l.Points) == 5 && l.Weight == view.Outline:
			bands++
		}
	}
	if patches != 2 || bands != 1 {
		t.Errorf("%d patches and %d straps, want 2 and 1", patches, bands)
	}
	v := view.New(s.scene, from.cam, draw.Rect{Max: r2.Vec{X: 100, Y: 100}})
	var said []string
	for _, l := range s.labels {
		if slices.ContainsFunc(l.at, v.Visible) {
			said = append(said, l.text)
		}
	}
	if want := []string{"V1", "V2", "grip 1"}; !slices.Equal(said, want) {
		t.Errorf("it says %q, want %q", said, want)
	}
}
