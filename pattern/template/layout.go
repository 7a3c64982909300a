package template

// layout is a named shape of a template.
type layout struct {
	name  string
	shape Shape
}

// Layouts are the names of the template's layouts in the file's order, none if
// it has one shape. The setting "layout" chooses between them: its value is
// the index here.
func (t *Template) Layouts() []string {
	var names []string
	for _, l := range t.layouts {
		names = append(names, l.name)
	}
	return names
}

// Resolve is the template with the shape of one of its layouts; a template
// without layouts is itself. It is nil if there is no such layout.
func (t *Template) Resolve(name string) *Template {
	if len(t.layouts) == 0 {
		return t
	}
	for _, l := range t.layouts {
		if l.name == name {
			r := *t
			r.Shape = l.shape
			return &r
		}
	}
	return nil
}
