package template_test

import (
	"testing"

	"tasset/pattern/template"
	"tasset/templates"
)

// What a costume can set for all its pieces in one place has one unit in all of
// them, and no two pieces have one code.
func TestBuiltIn_goTogether(t *testing.T) {
	names, err := template.List(templates.FS)
	if err != nil || len(names) < 30 {
		t.Fatalf("the catalogue has %v, %v", names, err)
	}
	units := map[string]string{"trim": "mm", "lames": "count", "crease": "mm", "ease": "mm", "padding": "mm", "gores": "count", "panels": "count", "deviation": "mm"}
	codes := map[string]string{}
	for _, n := range names {
		p, err := template.Load(templates.FS, n)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if other := codes[p.Code]; other != "" {
			t.Errorf("%s and %s have the code %s", other, n, p.Code)
		}
		codes[p.Code] = n
		for _, s := range p.Settings {
			if want := units[s.Name]; want != "" && s.Unit != want {
				t.Errorf("%s: %s is in %s; in the other pieces in %s", n, s.Name, s.Unit, want)
			}
		}
	}
}
