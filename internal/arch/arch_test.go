package arch

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

const root = "../.."

// goFiles lists the module's Go files by their path below its root.
func goFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := fs.WalkDir(os.DirFS(root), ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && p != "."):
			return fs.SkipDir
		case strings.HasSuffix(p, ".go"):
			files = append(files, p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 50 {
		t.Fatalf("only %d Go files found below %s: is this the module's root?", len(files), root)
	}
	return files
}

func TestImports_keepToTheTable(t *testing.T) {
	used := map[Exception]bool{}
	for _, file := range goFiles(t) {
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, filepath.FromSlash(file)), nil, parser.ImportsOnly)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		for _, spec := range tree.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			if wrong := Check(file, imported); wrong != "" {
				t.Error(wrong)
			}
			for _, e := range Exceptions {
				if path.Dir(file) == e.Room && imported == module+e.Import {
					used[e] = true
				}
			}
		}
	}
	for _, e := range Exceptions {
		if !used[e] {
			t.Errorf("the exception for %s importing %s is not needed any more", e.Room, e.Import)
		}
	}
}

func TestCheck_refusesWithTheReason(t *testing.T) {
	for _, c := range []struct{ file, imported, says string }{
		{"tile/layout.go", "tasset/body", "put it on the piece"},
		{"internal/geom/mesh.go", "tasset/internal/draw", "could leave"},
		{"pattern/make.go", "tasset/templates", "file system"},
		{"tile/print.go", "tasset/internal/draw/pdf", "alone"},
		{"pattern/make_test.go", "tasset/tile", "panels know no page and"},
		{"tile/page.go", "github.com/jung-kurt/gofpdf", "display lists"},
		{"internal/booklet/seams.go", "gonum.org/v1/gonum/mat", "numerical work"},
		{"body/form.go", "example.org/new", "not on the list"},
		{"body/form.go", "pgregory.net/rapid", "for tests"},
		{"armour/new.go", "fmt", "does not know"},
		{"body/form.go", "tasset/internal/synth", "does not know what will be worn"},
	} {
		if got := Check(c.file, c.imported); !strings.Contains(got, c.says) {
			t.Errorf("Check(%q, %q) = %q; want a sentence with %q", c.file, c.imported, got, c.says)
		}
	}
	for _, c := range [][2]string{
		{"tile/layout.go", "tasset/pattern"},
		{"tile/layout.go", "math"},
		{"tile/layout_test.go", "tasset/tile"},
		{"body/form_test.go", "tasset/internal/synth"},
		{"body/form_test.go", "pgregory.net/rapid"},
		{"pattern/shell.go", "gonum.org/v1/gonum/spatial/r3"},
		{"internal/draw/pdf/pdf.go", "github.com/jung-kurt/gofpdf"},
	} {
		if got := Check(c[0], c[1]); got != "" {
			t.Errorf("Check(%q, %q) = %q; want it allowed", c[0], c[1], got)
		}
	}
}

// The table must not allow a circle, and must not name a room that is not there.
func TestRooms_flowOneWay(t *testing.T) {
	const white, grey, black = 0, 1, 2
	state := map[string]int{}
	var visit func(p string)
	visit = func(p string) {
		r, ok := roomAt(p)
		if !ok {
			t.Fatalf("the table names %s, but has no line for it", p)
		}
		state[p] = grey
		for _, next := range r.May {
			switch state[next] {
			case grey:
				t.Errorf("%s and %s may import each other", p, next)
			case white:
				visit(next)
			}
		}
		state[p] = black
	}
	for _, r := range Rooms {
		if r.Reason == "" {
			t.Errorf("%s has no reason", r.Path)
		}
		if state[r.Path] == white {
			visit(r.Path)
		}
	}
}
