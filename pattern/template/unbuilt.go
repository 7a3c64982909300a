package template

// unbuilt are the parts of the language that are checked, but that the pattern
// stage does not build yet, by the line of a template that asks for them (0:
// none does). Whoever builds one takes its line out of this list; with the last
// one this file goes.
var unbuilt = []struct {
	key  string
	line func(t *Template, s *Shape) int
}{}

// listUnbuilt lists what the template asks for in vain, in any of its layouts.
func (t *Template) listUnbuilt() []Unbuilt {
	shapes := []*Shape{&t.Shape}
	for i := range t.layouts {
		shapes = append(shapes, &t.layouts[i].shape)
	}
	var out []Unbuilt
	for _, u := range unbuilt {
		for _, s := range shapes {
			if line := u.line(t, s); line > 0 {
				out = append(out, Unbuilt{u.key, line})
				break
			}
		}
	}
	return out
}

func first[T any](list []T, is func(T) (bool, int)) int {
	for _, x := range list {
		if ok, line := is(x); ok {
			return line
		}
	}
	return 0
}
