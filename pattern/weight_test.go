package pattern_test

import (
	"context"
	"math"
	"testing"

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
