package costume

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// The README lists every piece of the catalogue with the words of its template, and its example of a look can be read.
func TestReadme_catalogue(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	list, err := NewCatalogue(nil).List()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range list {
		if row := "| `" + l.Name + "` | " + l.About + " |\n"; !strings.Contains(string(text), row) {
			t.Errorf("the README's table has no row %q", row)
		}
	}
	look := regexp.MustCompile("(?s)```yaml\n(look:.*?)```").FindSubmatch(text)
	if look == nil {
		t.Fatal("the README shows no look")
	}
	if _, err := ReadCostume(CostumeFile, append([]byte("format: 1\n"), look[1]...), NewCatalogue(nil)); err != nil {
		t.Errorf("the look that the README shows: %v", err)
	}
	lines := regexp.MustCompile(`(?m)^  \w+: \w+(?: mm)?`).FindAllString(string(look[1]), -1)
	if len(lines) < 4 {
		t.Errorf("the look has only %q", lines)
	}
	for _, l := range lines {
		if !strings.Contains(suitFile("", "A4"), "\n# "+l) {
			t.Errorf("the README's look has %q, and that of the suit's costume.yaml has not", l)
		}
	}
}
