package template_test

import (
	"testing"

	"tasset/pattern/template"
	"tasset/templates"
)

func TestBuiltIn_areGoodAndWhollyBuilt(t *testing.T) {
	names, err := template.List(templates.FS)
	if err != nil || len(names) < 4 {
		t.Fatalf("the catalogue has %v, %v", names, err)
	}
	for _, n := range names {
		p, err := template.Load(templates.FS, n)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if len(p.Later) > 0 {
			t.Errorf("%s asks for what is not built: %v", n, p.Later)
		}
	}
}
