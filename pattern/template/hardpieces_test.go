package template_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"tasset/pattern/template"
)

// The hard pieces on paper stay within the language, and what is not built yet
// of each is known.
func TestHardPieces_areInTheLanguage(t *testing.T) {
	fsys := os.DirFS("../../docs/hard-pieces")
	notBuilt := map[string]string{
		"t-face-helmet": "",
		"pauldron":      "",
		"couter":        "",
		"breastplate":   "",
		"sabaton":       "",
		"finger-lames":  "",
		"horn":          "",
		"pouch":         "",
		"axe-head":      "",
		"visor":         "",
	}
	names, err := template.List(fsys)
	if err != nil || len(names) != len(notBuilt) {
		t.Fatalf("found %v, %v", names, err)
	}
	for _, n := range names {
		p, err := template.Load(fsys, n)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if got := laterKeys(p); got != notBuilt[n] {
			t.Errorf("%s: not built are %q; want %q", n, got, notBuilt[n])
		}
	}
}

// laterKeys lists the keys that are not built, sorted and once each.
func laterKeys(p *template.Template) string {
	var keys []string
	for _, u := range p.Later {
		keys = append(keys, u.Key)
	}
	slices.Sort(keys)
	return strings.Join(slices.Compact(keys), " ")
}
