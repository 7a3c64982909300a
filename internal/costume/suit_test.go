package costume

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tasset/pattern"
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
	for i := range r.Set.Pieces {
		p := &r.Set.Pieces[i]
		made[p.Template] = true
		meetTheirLetter(t, p)
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

// meetTheirLetter holds that each part of a seam is called alike on both panels, and
// otherwise than the other parts, as the print check says.
func meetTheirLetter(t *testing.T, p *pattern.Piece) {
	t.Helper()
	for _, s := range p.Seams {
		seen := map[string]bool{}
		for _, sp := range s.Spans {
			var names [2]string
			for k, side := range sp.Sides {
				names[k] = p.Panels[side.Panel].Edges[side.Edge].SeamName()
			}
			if names[0] != names[1] || seen[names[0]] {
				t.Errorf("%s, seam %d: its parts are called %q, again: %t", p.Name, s.Number, names, seen[names[0]])
			}
			seen[names[0]] = true
		}
	}
}

// BenchmarkSuit is the whole way of the default suit, from its two files to the
// bytes of a PDF (aim: at most 1.5 s cold on two cores, and 300 MB).
func BenchmarkSuit(b *testing.B) {
	dir := openSuit(b).Dir
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

// With an earlier result, what comes out is what comes out without one, change
// after change; and of the pieces only the changed ones were made again.
func TestBuild_onlyWhatChanged(t *testing.T) {
	dir := t.TempDir()
	costume := "format: 1\ntitle: Few\nmaterial: {density: 100}\npieces:\n"
	for _, name := range []string{"vambrace", "rerebrace", "tassets", "gauntlet", "helm"} {
		costume += "  - piece: " + name + "\n"
	}
	files := map[string]string{WearerFile: string(suitWearer), CostumeFile: costume}
	var before *Result
	for _, step := range []struct {
		does, file, from, to string
		again                []string // names of the pieces that are made again; "all" of them
	}{
		{"nothing", CostumeFile, "", "", []string{"all"}},
		{"another foam", CostumeFile, "piece: vambrace\n", "piece: vambrace\n    thickness: 4 mm\n", []string{"vambrace"}},
		{"another one, and one less", CostumeFile, "piece: rerebrace\n  - piece: tassets\n", "piece: rerebrace\n    thickness: 8 mm\n", []string{"rerebrace"}},
		{"one more, which is worn instead of another", CostumeFile, "  - piece: helm\n", "  - piece: helm\n  - piece: skull-cap\n", []string{"skull cap"}},
		{"others first", CostumeFile, "pieces:\n  - piece: vambrace\n    thickness: 4 mm\n", "pieces:\n", nil},
		{"others first", CostumeFile, "piece: skull-cap\n", "piece: skull-cap\n  - piece: vambrace\n", []string{"vambrace"}},
		{"a look of all", CostumeFile, "pieces:\n", "look: {thickness: 5 mm}\npieces:\n", []string{"vambrace", "gauntlet", "helm", "skull cap"}},
		{"another body", WearerFile, "stature: 171 cm", "stature: 172 cm", []string{"all"}},
	} {
		files[step.file] = strings.Replace(files[step.file], step.from, step.to, 1)
		for name, text := range files {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		f, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		again, fresh := shaped(t, f, before), shaped(t, f, nil)
		t.Run(step.does, func(t *testing.T) {
			sameResult(t, again, fresh)
			onlyAgain(t, before, again, step.again)
		})
		before = again
	}
}

func shaped(t *testing.T, f *Folder, before *Result) *Result {
	t.Helper()
	r, err := Shape(context.Background(), f, Options{Before: before}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// sameResult holds pieces and findings that were partly taken over against those that
// were all made afresh.
func sameResult(t *testing.T, again, fresh *Result) {
	t.Helper()
	for i, p := range fresh.Set.Pieces {
		if q := again.Set.Pieces[i]; !reflect.DeepEqual(p.Panels, q.Panels) || !reflect.DeepEqual(p.Seams, q.Seams) || p.Clearance != q.Clearance || p.Weight != q.Weight {
			t.Errorf("the %s differs from one that is made afresh", p.Name)
		}
	}
	if !reflect.DeepEqual(again.Findings, fresh.Findings) {
		t.Errorf("found %q, afresh %q", again.Findings, fresh.Findings)
	}
}

// onlyAgain tells whether the pieces with these names were made again and no others.
func onlyAgain(t *testing.T, before, now *Result, names []string) {
	t.Helper()
	for i := range now.Set.Pieces {
		p := &now.Set.Pieces[i]
		old := before != nil && slices.ContainsFunc(before.Set.Pieces, func(q pattern.Piece) bool { return p.TakenOver(&q) })
		if again := contains(names, "all") || contains(names, p.Name); old == again {
			t.Errorf("%s: taken over is %t", p.Name, old)
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
