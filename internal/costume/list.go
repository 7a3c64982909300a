package costume

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"tasset/internal/report"
	"tasset/pattern/template"
)

// Listed is a piece of the catalogue as a maker reads it.
type Listed struct {
	Name     string          `json:"name"`
	Title    string          `json:"title"`
	About    string          `json:"about"`
	WornOn   string          `json:"wornOn"`
	Governs  []string        `json:"governs"` // the sizes that it hangs on
	Settings []ListedSetting `json:"settings"`
	Openings []string        `json:"openings"`         // of the template, which drawn ones may take the place of
	Edges    []string        `json:"edges"`            // that can be drawn
	Here     []ListedHere    `json:"here"`             // what the folder's costume sets on its pieces of this kind
	Unread   string          `json:"unread,omitempty"` // why that is not known, if it is not
}

// ListedHere is one setting of a piece of the folder's costume.
type ListedHere struct {
	Piece   string `json:"piece"`
	Setting string `json:"setting"`
	Value   string `json:"value"`
	From    string `json:"from"` // "costume.yaml:12", or of the look: "the look, costume.yaml:7"
}

// ListedSetting is a setting of a piece.
type ListedSetting struct {
	Name    string   `json:"name"`
	Default string   `json:"default"` // as the template's file has it; may be a formula
	Least   string   `json:"least,omitempty"`
	Most    string   `json:"most,omitempty"`
	Choices []string `json:"choices,omitempty"`
	About   string   `json:"about"`
}

// List gives the whole catalogue in the order of the alphabet.
func (c *Catalogue) List() ([]Listed, error) {
	var out []Listed
	for _, name := range c.Names() {
		l, err := c.Describe(name)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

// Describe gives one piece of the catalogue.
func (c *Catalogue) Describe(name string) (Listed, error) {
	if !contains(c.Names(), name) {
		return Listed{}, c.noPiece(name)
	}
	t, err := c.Load(name)
	if err != nil {
		return Listed{}, err
	}
	l := Listed{Name: t.Name, Title: t.Title, About: t.About, WornOn: goesOn(t), Here: []ListedHere{}}
	for _, n := range t.Governs {
		l.Governs = append(l.Governs, string(n))
	}
	for _, s := range t.Settings {
		ls := ListedSetting{Name: s.Name, Default: s.Default.String(), Choices: s.Choices, About: s.About}
		if s.Unit != "choice" {
			ls.Least, ls.Most = ShowSetting(s, s.Min), ShowSetting(s, s.Max)
		} else if n, err := s.Default.Eval(nil); err == nil {
			ls.Default = ShowSetting(s, n)
		}
		l.Settings = append(l.Settings, ls)
	}
	l.Openings, l.Edges = openings(t), edges(t)
	return l, nil
}

// AddHere adds what the costume of a folder sets on its pieces of a kind, and where, or
// that it cannot be read. A folder without a costume sets nothing.
func (l *Listed) AddHere(dir string) {
	src, err := readFile(dir, CostumeFile)
	if err != nil {
		return
	}
	c, err := ReadCostume(CostumeFile, src, catalogueOf(dir))
	if err != nil {
		l.Unread = fmt.Sprintf("%s here has a mistake, so what it sets is not shown; \"tasset check\" tells what is wrong.", CostumeFile)
		return
	}
	for _, o := range c.Orders {
		if o.Template != l.Name {
			continue
		}
		for _, s := range l.Settings {
			if v, ok := o.Settings[s.Name]; ok {
				l.Here = append(l.Here, ListedHere{o.Name, s.Name, v.Typed, c.from(o.Places[s.Name])})
			}
		}
	}
}

// from names a place in costume.yaml, and tells whether it is of the look.
func (c *Costume) from(place string) string {
	if contains(c.lookAt, place) {
		return "the look, " + place
	}
	return place
}

// openings are the names of a template's openings, each once.
func openings(t *template.Template) []string {
	names := []string{}
	for _, o := range t.Openings {
		if !contains(names, o.Name) {
			names = append(names, o.Name)
		}
	}
	return names
}

// edges are the names of the rims of a template: those that no cap closes.
func edges(t *template.Template) []string {
	lower, upper := t.Base == nil, t.Cap == nil && t.Frame.Axis != "across"
	switch {
	case lower && upper:
		return []string{"lower rim", "upper rim"}
	case lower || upper:
		return []string{"rim"}
	}
	return []string{}
}

// OpenCatalogue is the catalogue with a folder's own templates, if it has any.
func OpenCatalogue(dir string) *Catalogue { return catalogueOf(dir) }

// goesOn names the part of the body that a piece goes on, or that carries it.
func goesOn(t *template.Template) string {
	f := t.Frame
	switch {
	case f.Kind == "joint":
		return f.Joint
	case f.Kind == "over":
		return "the " + strings.ReplaceAll(f.Over, "-", " ")
	case f.Kind == "free":
		return "–" // it is carried
	}
	return string(f.Segment)
}

// CheckTemplate reads a template file, makes its piece once with the template's
// own settings and tells its title and what was noted about the template's own lines, or
// everything that is wrong with it.
func CheckTemplate(ctx context.Context, path string) (title string, notes []report.Finding, err error) {
	name, isYAML := strings.CutSuffix(filepath.Base(path), ".yaml")
	if !isYAML {
		return "", nil, fmt.Errorf("%s does not end in .yaml, as template files do", path)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return "", nil, noFile(path)
	}
	c := NewCatalogue(os.DirFS(filepath.Dir(path)))
	t, err := c.Load(name)
	if err != nil {
		return "", nil, err
	}
	s, err := c.Sample(ctx, filepath.Dir(path), name)
	if err != nil {
		return "", nil, fmt.Errorf("%s: its keys are right, but the piece cannot be made with its own settings: %w", path, err)
	}
	for _, g := range s.Found {
		if strings.HasPrefix(g.Where, t.File+":") {
			notes = append(notes, g)
		}
	}
	return t.Title, notes, nil
}

// noFile says that there is no such template file, and which one may have been meant.
func noFile(path string) error {
	dir, name := filepath.Split(path)
	for _, in := range []string{dir, filepath.Join(dir, "templates")} {
		files, _ := filepath.Glob(filepath.Join(in, "*.yaml"))
		var names []string
		for _, f := range files {
			if base := filepath.Base(f); base != CostumeFile && base != WearerFile {
				names = append(names, base)
			}
		}
		if near := report.Nearest(name, names); near != "" {
			return fmt.Errorf("there is no file %s; did you mean %s?", path, filepath.Join(in, near))
		}
	}
	return fmt.Errorf("there is no file %s; a costume's own templates stand in its folder templates", path)
}

func (c *Catalogue) noPiece(name string) error {
	return fmt.Errorf("there is no piece %q; %s", name, c.perhapsMeant(name))
}
