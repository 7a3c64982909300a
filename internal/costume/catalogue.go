package costume

import (
	"errors"
	"io/fs"
	"path"
	"sort"
	"strings"
	"sync"

	"tasset/pattern/template"
	"tasset/templates"
)

// Catalogue is the pieces that can be made: the built-in templates and those
// that the maker keeps in the folder's own "templates".
type Catalogue struct {
	fsys *template.Remembering // as the pieces are made from the same files
	mu   sync.Mutex
	read map[string]*template.Template // so far: a template is checked once
}

// NewCatalogue puts a maker's own templates over the built-in ones; own may be
// nil.
func NewCatalogue(own fs.FS) *Catalogue {
	if own == nil {
		return &Catalogue{fsys: template.Remember(templates.FS)}
	}
	return &Catalogue{fsys: template.Remember(layered{own, templates.FS})}
}

// FS is where the templates stand, one file a piece.
func (c *Catalogue) FS() fs.FS { return c.fsys }

// Names lists the pieces in the order of the alphabet.
func (c *Catalogue) Names() []string {
	files, err := fs.ReadDir(c.fsys, ".")
	if err != nil {
		return nil
	}
	var names []string
	for _, f := range files {
		if path.Ext(f.Name()) == ".yaml" {
			names = append(names, strings.TrimSuffix(f.Name(), ".yaml"))
		}
	}
	sort.Strings(names)
	return names
}

// Load reads and checks one template.
func (c *Catalogue) Load(name string) (*template.Template, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if t, ok := c.read[name]; ok {
		return t, nil
	}
	t, err := template.Load(c.fsys, name)
	if err == nil {
		err = t.Known(c.Names())
	}
	if err != nil {
		return nil, err
	}
	if c.read == nil {
		c.read = map[string]*template.Template{}
	}
	c.read[name] = t
	return t, nil
}

// layered is a file system over another: what is above hides what is below.
type layered struct{ above, below fs.FS }

func (l layered) Open(name string) (fs.File, error) {
	f, err := l.above.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return l.below.Open(name)
	}
	return f, err
}

func (l layered) ReadDir(name string) ([]fs.DirEntry, error) {
	above, err := fs.ReadDir(l.above, name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	below, err := fs.ReadDir(l.below, name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	seen := map[string]bool{}
	var all []fs.DirEntry
	for _, e := range append(above, below...) {
		if !seen[e.Name()] {
			seen[e.Name()] = true
			all = append(all, e)
		}
	}
	return all, nil
}
