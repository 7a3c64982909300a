package costume

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tasset/internal/report"
)

// What docs/photographs.md shows must work as it stands there, on the demo.
func TestDocs_photographs(t *testing.T) {
	text, err := os.ReadFile("../../docs/photographs.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1)
	var keys []string
	for _, b := range blocks {
		key, _, _ := strings.Cut(b[1], ":")
		keys = append(keys, key)
		t.Run(key, func(t *testing.T) { tryExample(t, key, b[1]) })
	}
	if strings.Join(keys, " ") != "photographs posture pictures pieces" {
		t.Errorf("examples of %v", keys)
	}
	known := regexp.MustCompile("`(known: .*?)`").FindSubmatch(text)
	if known == nil {
		t.Fatal("no known length is shown")
	}
	src := regexp.MustCompile(`(?m)^    depth: .*$`).ReplaceAllString(blocks[2][1], "    "+string(known[1]))
	t.Run("known", func(t *testing.T) { tryExample(t, "pictures", src) })
}

// tryExample puts an example in the place of what the demo has there, and makes
// the pieces.
func tryExample(t *testing.T, key, src string) {
	dir := t.TempDir()
	if err := Demo(dir); err != nil {
		t.Fatal(err)
	}
	file, head := CostumeFile, "format: 1\nmaterial: {thickness: 5 mm}\n"
	if key == "photographs" || key == "posture" {
		file, head = WearerFile, "format: 1\nmeasurements: {stature: 171 cm, weight: 64 kg}\n"
		if err := Save(filepath.Join(dir, CostumeFile), []byte("format: 1\nmaterial: {thickness: 5 mm}\npieces: [{piece: greave}]\n")); err != nil {
			t.Fatal(err)
		}
	}
	if err := Save(filepath.Join(dir, file), []byte(head+src)); err != nil {
		t.Fatal(err)
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Shape(context.Background(), f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range r.Findings {
		if g.Level == report.Problem && !contains(r.Drafts(), g.Subject) {
			t.Error(g)
		}
	}
	if key == "photographs" && len(r.Photos.Solution.Lengths) == 0 {
		t.Error("nothing is measured")
	}
}
