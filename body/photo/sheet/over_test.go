package sheet

import (
	"testing"

	"tasset/body/photo"
	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// A laid picture lies on the sheet where the overlay says that its places stand
// on the photograph, flipped, stretched and turned as it may be; words keep clear.
func TestLaidOver_liesWhereItShould(t *testing.T) {
	shot := photo.Shot{Name: "body.jpg", View: photo.BodyFront, Width: 600, Height: 800}
	o := photo.Overlay{Name: "blade", Picture: "blade.jpg", Width: 80, Height: 200, At: photo.Pixel{X: 300, Y: 400}, Turn: 0.7, ScaleX: 1.5, ScaleY: 0.8, Flip: true}
	outline := &Curve{Says: "blade: 1 × 2 cm", Closed: true, Points: []photo.TracePoint{{At: photo.Pixel{X: 10, Y: 10}}, {At: photo.Pixel{X: 70, Y: 20}, Corner: true}, {At: photo.Pixel{X: 40, Y: 190}}}}
	rulers := []Line{{From: photo.Pixel{X: 5, Y: 5}, To: photo.Pixel{X: 60, Y: 150}, Says: "grip: 12 cm ± 1 cm"}, {From: photo.Pixel{X: 5, Y: 5}, To: photo.Pixel{X: 60, Y: 150}, Says: "the same again"}}
	page, err := LaidOver(photographOf(t, "body.jpg", plain(600, 800)), shot, Over{
		Laid:   []Laid{{Overlay: o, Picture: photographOf(t, "blade.jpg", plain(80, 200)), Outline: outline, Rulers: rulers}},
		Rulers: []Line{{From: photo.Pixel{X: 100, Y: 700}, To: photo.Pixel{X: 100, Y: 100}, Says: "staff: 140 cm ± 4 cm"}},
		Curves: []Curve{{Says: "helm: edge rim", Points: []photo.TracePoint{{At: photo.Pixel{X: 400, Y: 100}}, {At: photo.Pixel{X: 450, Y: 120}}, {At: photo.Pixel{X: 500, Y: 100}}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	inside(t, page)
	under, laid := page.Items[0].(*draw.Picture), (*draw.Picture)(nil)
	for _, it := range page.Items[1:] {
		if p, ok := it.(*draw.Picture); ok {
			laid = p
		}
	}
	on := func(p *draw.Picture, u, v float64) r2.Vec { // parts of the picture from its upper left corner
		return r2.Add(p.At, r2.Add(r2.Scale(u, p.Across), r2.Scale(1-v, p.Up)))
	}
	for _, q := range []photo.Pixel{{}, {X: 80}, {X: 80, Y: 200}, {X: 13, Y: 57}} {
		there := o.OnPhotograph(q)
		got, want := on(laid, q.X/80, q.Y/200), on(under, there.X/600, there.Y/800)
		if r2.Norm(r2.Sub(got, want)) > 1e-6 {
			t.Errorf("%v of the laid picture stands at %v, want %v", q, got, want)
		}
	}
	words := textsOn(page)
	a, b := on(under, 100.0/600, 700.0/800), on(under, 100.0/600, 100.0/800)
	for _, w := range words {
		k := w.Corners()
		if crosses(draw.Rect{Min: k[0], Max: k[2]}, [2]r2.Vec{a, b}) {
			t.Errorf("%q covers the staff", w.S)
		}
		if w.S == "staff: 140 cm ± 4 cm" && (k[0].Y < b.Y || k[0].Y > b.Y+nearPlate) {
			t.Errorf("the staff's reading stands at %v, not over its upper end, %v", k[0], b)
		}
	}
	for i, a := range words {
		for _, b := range words[:i] {
			if !apartFrom(a, b) {
				t.Errorf("%q covers %q", a.S, b.S)
			}
		}
	}
	o.Width = 81
	if _, err := LaidOver(photographOf(t, "body.jpg", plain(600, 800)), shot, Over{Laid: []Laid{{Overlay: o, Picture: photographOf(t, "blade.jpg", plain(80, 200))}}}); err == nil {
		t.Error("a picture of another size was laid")
	}
}
