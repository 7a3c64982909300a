package costume

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

var update = flag.Bool("update", false, "draw the steps of docs/build-a-piece.md anew")

// Every step of docs/build-a-piece.md is a file that can be used as it stands
// there: it is checked, built and drawn.
func TestDocs_buildAPiece(t *testing.T) {
	text, err := os.ReadFile("../../docs/build-a-piece.md")
	if err != nil {
		t.Fatal(err)
	}
	steps := regexp.MustCompile("(?s)```yaml\n(format: 1\n.*?)```").FindAllSubmatch(text, -1)
	if len(steps) < 5 {
		t.Fatalf("the page has %d steps", len(steps))
	}
	for i, step := range steps {
		t.Run(fmt.Sprint(i+1), func(t *testing.T) { tryStep(t, i+1, string(text), step[1]) })
	}
}

func tryStep(t *testing.T, n int, page string, src []byte) {
	dir := t.TempDir()
	file := filepath.Join(dir, "templates", "shin-plate.yaml")
	if err := os.Mkdir(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Save(file, src); err != nil {
		t.Fatal(err)
	}
	s, err := OpenCatalogue(dir).Sample(context.Background(), dir, "shin-plate")
	if err != nil {
		t.Fatal(err)
	}
	name := fmt.Sprintf("build-a-piece-%d.svg", n)
	if !regexp.MustCompile(regexp.QuoteMeta("(" + name + ")")).MatchString(page) {
		return // a step that changes nothing to see
	}
	picture, err := s.Drawing(name, false)
	if err != nil {
		t.Fatal(err)
	}
	drawn := filepath.Join("..", "..", "docs", name)
	if *update {
		if err := os.WriteFile(drawn, picture, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := os.Stat(drawn); err != nil {
		t.Errorf("%v; run go test ./internal/costume -run buildAPiece -update", err)
	}
}
