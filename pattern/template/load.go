package template

import (
	"fmt"
	"io/fs"
	"path"
	"reflect"
	"sort"
	"strings"
	"sync"
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
		return nil, keysFirst{c.sorted()}
	}
	var f fileTemplate
	decoder{c}.value(root, reflect.ValueOf(&f).Elem(), "a template")
	if len(c.list) > 0 {
		return nil, keysFirst{c.sorted()}
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
	if r, ok := fsys.(*Remembering); ok {
		return r.parse(file, src)
	}
	return Parse(file, src)
}

// Remembering is a folder of templates that Load parses each once, as long as its
// file says the same. It may be used by several goroutines at once.
type Remembering struct {
	fs.FS
	mu     sync.Mutex
	parsed map[string]*parsed // by file
}

// parsed is what a file's text came out as.
type parsed struct {
	src  string
	once func() (*Template, error)
}

// Remember makes a folder one that remembers.
func Remember(fsys fs.FS) *Remembering {
	return &Remembering{FS: fsys, parsed: map[string]*parsed{}}
}

// ReadDir lists the folder as it would without.
func (r *Remembering) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(r.FS, name) }

func (r *Remembering) parse(file string, src []byte) (*Template, error) {
	r.mu.Lock()
	p := r.parsed[file]
	if p == nil || p.src != string(src) {
		p = &parsed{string(src), sync.OnceValues(func() (*Template, error) { return Parse(file, src) })}
		r.parsed[file] = p
	}
	r.mu.Unlock()
	return p.once()
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
