package template_test

import (
	"errors"
	"io/fs"
	"testing"

	"tasset/pattern/template"
	"tasset/templates"
)

// Whatever the bytes are, a template comes back or faults with a place in the
// file; a template that was let in evaluates or says why it does not.
func FuzzTemplate(f *testing.F) {
	names, _ := template.List(templates.FS)
	for _, n := range names {
		src, err := fs.ReadFile(templates.FS, n+".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	f.Add([]byte(piece))
	f.Add([]byte(layered))
	f.Add([]byte(rich))
	f.Add([]byte(spined))
	f.Add([]byte(sword))
	f.Fuzz(func(t *testing.T, src []byte) {
		p, err := template.Parse("x.yaml", src)
		if err != nil {
			var faults template.Faults
			if !errors.As(err, &faults) || len(faults) == 0 {
				t.Fatalf("not a list of faults: %v", err)
			}
			for _, x := range faults {
				if x.Line < 1 || x.Col < 1 || x.Said == "" {
					t.Errorf("a fault without a place: %+v", x)
				}
			}
			return
		}
		env := template.Env{}
		for _, r := range p.Rings {
			for _, u := range r.At.Uses() {
				env[u] = 100
			}
			_, _ = r.At.Eval(env)
			_, _ = r.When.On(env)
		}
	})
}
