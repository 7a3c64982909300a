package pattern_test

import (
	"context"
	"testing"

	"tasset/body"
	"tasset/pattern"
	"tasset/templates"
)

// A piece tells how far real skins lie from the estimated body where it sits: the
// most of the parts that it is kept clear of, and nothing where one of them was
// never measured.
func TestScatter_ofThePartsThatAPieceGoesRound(t *testing.T) {
	for _, c := range []struct {
		piece string
		parts []body.Segment
	}{
		{"greave", []body.Segment{body.Shank}},
		{"poleyn", []body.Segment{body.Thigh, body.Shank}},
		{"visored-helmet", []body.Segment{body.Head, body.Neck}},
		{"sabaton", nil},
		{"staff", nil},
	} {
		set, _, err := pattern.Make(context.Background(), ordersFor(t, c.piece), templates.FS, drawBody(t, 0), pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		var want body.Scatter
		for _, seg := range c.parts {
			s, _ := body.ScatterOf(seg)
			want = body.Scatter{Mean: max(want.Mean, s.Mean), Tail: max(want.Tail, s.Tail)}
		}
		if got := set.Pieces[0].Scatter(); got != want {
			t.Errorf("%s: %v, want %v", c.piece, got, want)
		}
	}
}

// A piece keeps its ease and the reserve of what it goes round: of the shank alone
// the whole, at a knee the lesser of two, and none where the form is not known to
// fall short.
func TestReserve_ofThePartsThatAPieceGoesRound(t *testing.T) {
	for piece, want := range map[string]float64{"greave": body.Reserve(body.Shank), "poleyn": body.Reserve(body.Thigh), "vambrace": 0, "visored-helmet": 0, "staff": 0} {
		set, _, err := pattern.Make(context.Background(), ordersFor(t, piece), templates.FS, drawBody(t, 0), pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		if p.Reserve() != want || p.Clearance < 0.98*(p.Asked+want) {
			t.Errorf("%s: %.2f mm in reserve, want %.2f; %.2f mm clear of %.2f asked", piece, p.Reserve(), want, p.Clearance, p.Asked)
		}
	}
	if body.Reserve(body.Shank) <= body.Reserve(body.Thigh) || body.Reserve(body.Thigh) <= 0 {
		t.Error("no reserve on the leg: the test above tells nothing")
	}
}
