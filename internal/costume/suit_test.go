package costume

import (
	"bytes"
	"context"
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
