package template

import (
	"fmt"
	"sort"
	"strings"

	"tasset/internal/report"
)

// place is a position in a file, from 1.
type place struct{ line, col int }

// Fault is one thing that is wrong with a template file.
type Fault struct {
	File      string
	Line, Col int    // from 1; a column counts characters
	Said      string // what was found
	Perhaps   string // what would be right; may be empty
}

// Where is the fault's place as editors understand it: "helm.yaml:12:5".
func (f Fault) Where() string { return fmt.Sprintf("%s:%d:%d", f.File, f.Line, f.Col) }

// Error is the fault on one line.
func (f Fault) Error() string {
	s := f.Where() + ": " + f.Said
	if f.Perhaps != "" {
		s += "; " + f.Perhaps
	}
	return s
}

// Faults are what is wrong with a template file, in the order of the file.
type Faults []Fault

// Error lists the faults, one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// enough faults are shown at once; after that the file is not a template.
const enough = 50

// faults collects what is wrong while a file is read.
type faults struct {
	file string
	list Faults
}

// at adds a fault. perhaps says what would be right and may be empty.
func (c *faults) at(p place, perhaps, said string, args ...any) {
	c.list = append(c.list, Fault{c.file, max(p.line, 1), max(p.col, 1), fmt.Sprintf(said, args...), perhaps})
}

// err is nil if nothing was wrong.
func (c *faults) err() error {
	if len(c.list) == 0 {
		return nil
	}
	return c.sorted()
}

func (c *faults) sorted() Faults {
	sort.SliceStable(c.list, func(i, j int) bool {
		a, b := c.list[i], c.list[j]
		return a.Line < b.Line || a.Line == b.Line && a.Col < b.Col
	})
	return c.list[:min(len(c.list), enough)]
}

// keysFirst are faults of a file whose formulas were not looked at, as names that they
// read may be among what could not be.
type keysFirst struct{ Faults }

func (k keysFirst) Error() string {
	return k.Faults.Error() + "\nFormulas, units and names are looked at once this is right."
}

func (k keysFirst) Unwrap() error { return k.Faults }

// didYouMean is the advice about a word that is not one of the known ones.
func didYouMean(word string, known []string) string {
	if n := report.Nearest(word, known); n != "" {
		return fmt.Sprintf("did you mean %s?", n)
	}
	return "write one of " + listed(known)
}

// listed joins words for a sentence, not too many of them.
func listed(words []string) string {
	const most = 24
	if len(words) > most {
		return strings.Join(words[:most], ", ") + " …"
	}
	return strings.Join(words, ", ")
}

// short cuts a maker's text to what fits in a message.
func short(s string) string {
	r := []rune(s)
	if len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}
