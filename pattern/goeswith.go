package pattern

import (
	"slices"

	"tasset/pattern/template"
)

// goesWith are the templates of the pieces that one lies over, is fastened to or
// follows, each once, as the file has them.
func goesWith(t *template.Template) []string {
	var out []string
	add := func(name string) {
		if name != "" && name != t.Name && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	add(t.Frame.Over)
	for _, f := range t.Fastenings {
		add(f.To)
	}
	for _, f := range t.Flats {
		if f.Follow != nil {
			add(f.Follow.Piece)
		}
	}
	return out
}
