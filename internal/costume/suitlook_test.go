package costume

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"tasset/internal/report"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// The look that the suit's costume.yaml offers as a comment leaves no doubt when its
// lines are taken out together, nor each by itself, and each changes what is cut.
func TestDemoSuit_lookInTheComments(t *testing.T) {
	dir := t.TempDir()
	if err := DemoSuit(dir); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, CostumeFile)
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	block := regexp.MustCompile(`(?m)^# look:\n((?:#   [a-z ]+: .*\n)+)`).FindStringSubmatch(string(src))
	if block == nil {
		t.Fatal("costume.yaml offers no look")
	}
	lines := strings.SplitAfter(strings.TrimSuffix(block[1], "\n"), "\n")
	if len(lines) < 4 {
		t.Errorf("the look has only %q", lines)
	}
	made := func(with []string, before *Result) *Result {
		look := ""
		for _, l := range with {
			look += strings.TrimSuffix(strings.TrimPrefix(l, "#"), "\n") + "\n"
		}
		if look != "" {
			look = "look:\n" + look
		}
		if err := os.WriteFile(file, []byte(strings.Replace(string(src), block[0], look, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		f, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		r := shaped(t, f, before)
		for _, g := range r.Findings {
			if g.Level != report.Note || strings.Contains(g.Said, "the look asks") {
				t.Errorf("with %q: %s: %s", look, g.Subject, g.Said)
			}
		}
		return r
	}
	usual := made(nil, nil)
	for _, with := range append([][]string{lines}, single(lines)...) {
		changed := 0
		for i, p := range made(with, usual).Set.Pieces {
			if !reflect.DeepEqual(outlines(p.Panels), outlines(usual.Set.Pieces[i].Panels)) {
				changed++
			}
		}
		if changed < 3 {
			t.Errorf("%q changes only %d pieces", with, changed)
		}
	}
}

func single(lines []string) (out [][]string) {
	for _, l := range lines {
		out = append(out, []string{l})
	}
	return out
}

func outlines(panels []pattern.Panel) (out [][]r2.Vec) {
	for _, p := range panels {
		out = append(out, p.Outline)
	}
	return out
}
