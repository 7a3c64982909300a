package pattern_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/pattern"
)

// within is the built-in helmet of gores with a deviation that it is held to.
func within(t *testing.T, limit string) fstest.MapFS {
	t.Helper()
	text := unpadded(t)
	const seams = "seams: {count: gores, start: 180 deg / gores}"
	if !strings.Contains(text, seams) {
		t.Fatalf("the built-in helmet has no %q", seams)
	}
	changed := strings.Replace(text, seams, "seams: {count: gores, start: 180 deg / gores, within: "+limit+", most: 14}", 1)
	return fstest.MapFS{"open-helmet.yaml": {Data: []byte(changed)}}
}

// A helmet has as many gores as bring it near enough to the round, and no more.
// Where the most are not enough, it says so.
func TestMake_panelsByDeviation(t *testing.T) {
	form := drawBody(t, 0)
	make := func(limit string, gores float64) (*pattern.Piece, string) {
		o := pattern.Order{Name: "h", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}, "gores": {Number: gores}}}
		set, fs, err := pattern.Make(context.Background(), []pattern.Order{o}, within(t, limit), form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, f := range fs {
			said += f.Said
		}
		pattern.CheckPiece(t, &set.Pieces[0])
		return &set.Pieces[0], said
	}
	free, _ := make("0 mm", 6)
	if n := free.Count(); n != 6 {
		t.Errorf("without a limit it has %d panels, want 6", n)
	}
	held, said := make("10 mm", 6)
	n := held.Count()
	if held.Deviation > 10.1 || n <= 6 || n > 14 || strings.Contains(said, "stands off") {
		t.Errorf("held to 10 mm: %d panels that stand off %.2f mm; %s", n, held.Deviation, said)
	}
	fewer, _ := make("0 mm", float64(n-1))
	if fewer.Deviation <= 10 {
		t.Errorf("%d panels would have stood off only %.2f mm", n-1, fewer.Deviation)
	}
	if tight, said := make("1 mm", 6); tight.Count() != 14 || !strings.Contains(said, "14 panels, the most") {
		t.Errorf("held to 1 mm: %d panels; said %q", tight.Count(), said)
	}
}
