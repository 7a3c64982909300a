package costume

import (
	"bytes"
	"context"
	"reflect"
	"slices"
	"testing"
)

func openSuit(t testing.TB) *Folder {
	t.Helper()
	dir := t.TempDir()
	if err := DemoSuit(dir); err != nil {
		t.Fatal(err)
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every piece of the default suit is made, and its pages are a document.
func TestSuit(t *testing.T) {
	f := openSuit(t)
	r, err := Build(context.Background(), f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	made := map[string]bool{}
	for _, p := range r.Set.Pieces {
		made[p.Template] = true
	}
	for _, name := range Suit() {
		if !made[name] {
			t.Errorf("the suit has no %s", name)
		}
	}
	doc, err := f.PDF(r)
	if err != nil || !bytes.HasPrefix(doc, []byte("%PDF")) {
		t.Errorf("no document: %v", err)
	}
}

// BenchmarkSuit is the whole way of the default suit, from its two files to the
// bytes of a PDF (aim: at most 1.5 s cold on two cores, and 300 MB).
func BenchmarkSuit(b *testing.B) {
	dir := b.TempDir()
	if err := DemoSuit(dir); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		f, err := Open(dir)
		if err != nil {
			b.Fatal(err)
		}
		r, err := Build(context.Background(), f, Options{}, quiet)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.PDF(r); err != nil {
			b.Fatal(err)
		}
	}
}

// change gives one piece of a folder other foam.
func change(f *Folder, piece string, thickness float64) *Folder {
	costume := *f.Costume
	costume.Orders = slices.Clone(costume.Orders)
	for i, o := range costume.Orders {
		if o.Name == piece {
			costume.Orders[i].Thickness = thickness
		}
	}
	g := *f
	g.Costume = &costume
	return &g
}

// With an earlier result, what comes out is what comes out without one; and of
// the pieces only the changed one was made again.
func TestBuild_onlyWhatChanged(t *testing.T) {
	f := openSuit(t)
	ctx := context.Background()
	before, err := Shape(ctx, f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	changed := change(f, "greave", 4)
	again, err := Shape(ctx, changed, Options{Before: before}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := Shape(ctx, changed, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range fresh.Set.Pieces {
		if q := again.Set.Pieces[i]; !reflect.DeepEqual(p.Panels, q.Panels) || !reflect.DeepEqual(p.Seams, q.Seams) || p.Clearance != q.Clearance || p.Weight != q.Weight {
			t.Errorf("the %s differs from one that is made afresh", p.Name)
		}
	}
	for i, f := range fresh.Findings {
		if i >= len(again.Findings) || f.String() != again.Findings[i].String() {
			t.Fatalf("finding %d of %d and %d differs from one that is made afresh: %s", i, len(again.Findings), len(fresh.Findings), f)
		}
	}
	if again.Form != before.Form {
		t.Error("the body was formed again")
	}
	for i, p := range again.Set.Pieces {
		if same := &p.Panels[0].Surface.T[0] == &before.Set.Pieces[i].Panels[0].Surface.T[0]; same == (p.Name == "greave") {
			t.Errorf("%s: taken over is %t", p.Name, same)
		}
	}
}

// BenchmarkSuit_onePiece is what a maker waits for after a change of one piece, its
// pieces and findings up to date (aim: at most 150 ms on two cores).
func BenchmarkSuit_onePiece(b *testing.B) {
	f := openSuit(b)
	before, err := Shape(context.Background(), f, Options{}, quiet)
	if err != nil {
		b.Fatal(err)
	}
	n := 0.0
	for b.Loop() {
		n = 1 - n
		if before, err = Shape(context.Background(), change(f, "vambrace", 4+n), Options{Before: before}, quiet); err != nil {
			b.Fatal(err)
		}
	}
}
