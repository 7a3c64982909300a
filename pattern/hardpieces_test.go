package pattern_test

import (
	"context"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

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
	form := drawBody(t, 0)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			tpl, err := template.Load(all, name)
			if err != nil {
				t.Fatal(err)
			}
			if len(tpl.Later) > 0 {
				t.Skipf("%s is not built yet", tpl.Later[0].Key)
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
			pattern.CheckPiece(t, &set.Pieces[len(set.Pieces)-1])
		})
	}
}
