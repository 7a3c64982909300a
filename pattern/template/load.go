package template

import (
	"fmt"
	"io/fs"
	"path"
	"reflect"
	"sort"
	"strings"
)

// ending is that of a template's file.
const ending = ".yaml"

// Parse reads and checks a template. file is its name for messages, and its
// last part without the ending is the template's name. Everything that is
// wrong comes back at once as Faults, each with its line and column.
func Parse(file string, src []byte) (*Template, error) {
	c := &faults{file: file}
	root := parseYAML(src, c)
	if root == nil {
		return nil, c.err()
	}
	var f fileTemplate
	decoder{c}.value(root, reflect.ValueOf(&f).Elem(), "a template")
	if err := c.err(); err != nil {
		return nil, err // formulas are looked at once the keys are right
	}
	name := strings.TrimSuffix(path.Base(file), ending)
	t := check(&f, c, name)
	if err := c.err(); err != nil {
		return nil, err
	}
	t.File, t.Name = file, name
	return t, nil
}

// Load reads the template of a name ("helm") from a folder of templates.
func Load(fsys fs.FS, name string) (*Template, error) {
	names, err := List(fsys)
	if err != nil {
		return nil, err
	}
	file := strings.TrimSuffix(name, ending) + ending
	src, err := fs.ReadFile(fsys, file)
	if err != nil {
		return nil, fmt.Errorf("there is no template %q; %s", name, didYouMean(name, names))
	}
	return Parse(file, src)
}

// List names the templates of a folder, sorted.
func List(fsys fs.FS) ([]string, error) {
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return nil, fmt.Errorf("the folder of templates cannot be read: %w", err)
	}
	var names []string
	for _, e := range entries {
		if n, ok := strings.CutSuffix(e.Name(), ending); ok && !e.IsDir() {
			names = append(names, n)
		}
	}
	sort.Strings(names)
	return names, nil
}
