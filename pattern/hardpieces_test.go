package pattern_test

import (
	"context"
	"io/fs"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/pattern"
	"tasset/pattern/template"
	"tasset/templates"
)

// The hard pieces of the documents are built, with the pieces that they lie over.
func TestMake_hardPieces(t *testing.T) {
	hard := os.DirFS("../docs/hard-pieces")
	names, err := template.List(hard)
	if err != nil || len(names) == 0 {
		t.Fatalf("found %v, %v", names, err)
	}
	all := fstest.MapFS{}
	for _, fsys := range []fs.FS{templates.FS, hard} { // of one name the hard piece
		files, _ := fs.Glob(fsys, "*.yaml")
		for _, f := range files {
			src, err := fs.ReadFile(fsys, f)
			if err != nil {
				t.Fatal(err)
			}
			all[f] = &fstest.MapFile{Data: src}
		}
	}
	form := withFingers(t)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			tpl, err := template.Load(all, name)
			if err != nil {
				t.Fatal(err)
			}
			var orders []pattern.Order
			for _, n := range []string{tpl.Frame.Over, name} {
				if n != "" {
					orders = append(orders, pattern.Order{Name: strings.ReplaceAll(n, "-", " "), Template: n})
				}
			}
			set, _, err := pattern.Make(context.Background(), orders, all, form, pattern.Material{K: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			p := &set.Pieces[len(set.Pieces)-1]
			pattern.CheckPiece(t, p)
			t.Logf("%d panels", len(p.Panels))
			if p.Template != name || len(p.Panels) == 0 {
				t.Errorf("%s has %d panels", p.Template, len(p.Panels))
			}
		})
	}
}

// withFingers is a body of the survey whose fingers were measured: the survey
// has no sizes of them, and they are never estimated.
func withFingers(t *testing.T) *body.Form {
	t.Helper()
	s := body.LoadSurvey()
	tape := s.Draw(body.Man, rand.New(rand.NewPCG(1, 0)))
	for finger, size := range map[string][2]float64{"thumb": {65, 70}, "index finger": {75, 66}, "middle finger": {83, 66}, "ring finger": {77, 62}, "little finger": {61, 55}} {
		tape.Entries = append(tape.Entries, body.Entry{Name: body.Name(finger + " length"), Value: size[0]}, body.Entry{Name: body.Name(finger + " girth"), Value: size[1]})
	}
	m, _, err := body.Estimate(s, tape, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	return form
}
