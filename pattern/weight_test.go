package pattern_test

import (
	"context"
	"math"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
)

// A square of 200 mm, 10 mm thick, is 0.4 litres: 40 g at 100 kg/m³. Source:
// length × breadth × thickness × density.
func TestPiece_weightOfASquare(t *testing.T) {
	corners := []bool{true, true, true, true}
	square := pattern.Flat{Points: []r2.Vec{{}, {X: 200}, {X: 200, Y: 200}, {Y: 200}}, Corner: corners, Known: true}
	weight := func(o pattern.Order, density float64) float64 {
		o.Name, o.Flat, o.Thickness = "square", &square, 10
		set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, nil, pattern.Material{K: 0.5, Density: density})
		if err != nil {
			t.Fatal(err)
		}
		return set.Pieces[0].Weight
	}
	if got := weight(pattern.Order{}, 100); math.Abs(got-0.040) > 1e-9 {
		t.Errorf("%.6f kg, want 0.040", got)
	}
	if got := weight(pattern.Order{}, 0); got != 0 {
		t.Errorf("%.6f kg without a density, want none", got)
	}
	if got := weight(pattern.Order{MockUp: true}, 100); got != 0 {
		t.Errorf("%.6f kg in card, want none", got)
	}
}

// A pair weighs twice what one of it does.
func TestPiece_weightOfAPair(t *testing.T) {
	form := drawBody(t, 1)
	weight := func(side body.Side) float64 {
		o := pattern.Order{Name: "greave", Template: "greave", Side: side}
		set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, templates.FS, form, pattern.Material{K: 0.5, Density: 100})
		if err != nil {
			t.Fatal(err)
		}
		return set.Pieces[0].Weight
	}
	one, both := weight(body.Left), weight(body.Both)
	if one <= 0 || math.Abs(both-2*one) > 1e-9 {
		t.Errorf("the left greave weighs %.4f kg, a pair %.4f", one, both)
	}
}

// A pad is of soft foam of 30 kg/m³, or of the piece's if that is lighter: one of
// 40 x 50 x 10 mm weighs 0.6 g.
func TestPiece_weightOfAPad(t *testing.T) {
	weight := func(pads string, density float64) float64 {
		own := fstest.MapFS{"own.yaml": {Data: []byte("format: 1\ntitle: Tube\nabout: A tube.\ncode: TU\ngoverns: []\nthickness: 10 mm\nframe: {free: true}\nrings:\n" +
			"  - {name: low, at: 0, size: {width: 120 mm, depth: 120 mm}}\n  - {name: high, at: 100 mm, size: {width: 120 mm, depth: 120 mm}}\n" +
			"bands:\n  - {name: wall, from: low, to: high, seams: {at: [90 deg]}}\n" + pads)}}
		set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "own", Template: "own"}}, own, drawBody(t, 1), pattern.Material{K: 0.5, Density: density})
		if err != nil {
			t.Fatal(err)
		}
		return set.Pieces[0].Weight
	}
	const pad = "pads:\n  - {name: pad, angle: 0 deg, level: 50 mm, width: 40 mm, height: 50 mm, thickness: 10 mm}\n"
	for density, want := range map[float64]float64{100: 0.0006, 20: 0.0004, 0: 0} {
		if got := weight(pad, density) - weight("", density); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %g kg/m³ a pad adds %.6f kg, want %.6f", density, got, want)
		}
	}
}
