package costume

import (
	"context"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/templates"
	"tasset/tile"
)

// The pieces of the catalogue as a stranger reads them off the pages, on a slight
// and on a heavy body, one with thick and one with thin foam.
func TestPages_everyPieceReadByAStranger(t *testing.T) {
	for _, c := range []struct {
		about           string
		sex             body.Sex
		stature, weight float64
		thickness       float64
		traced          pattern.Face
	}{{"slight", body.Woman, 1560, 48, 0, pattern.Middle}, {"heavy", body.Man, 1880, 112, 8, pattern.Outer}} {
		t.Run(c.about, func(t *testing.T) {
			m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: c.sex, Age: 30, Entries: []body.Entry{
				{Name: "stature", Value: c.stature}, {Name: "weight", Value: c.weight}}}, nil)
			if err != nil {
				t.Fatal(err)
			}
			form, _, err := body.NewForm(m, nil, body.Posture{})
			if err != nil {
				t.Fatal(err)
			}
			for _, part := range catalogueIn(t, 6) { // so many at a time, as codes and sheets are shared
				t.Run(part[0], func(t *testing.T) { readEvery(t, part, form, c.thickness, c.traced) })
			}
		})
	}
}

// catalogueIn is the whole catalogue, in lists of so many pieces.
func catalogueIn(t *testing.T, n int) (out [][]string) {
	t.Helper()
	files, err := fs.Glob(templates.FS, "*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no templates: %v", err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(f, ".yaml")
		if slices.Contains(together, name) {
			continue
		}
		if len(out) == 0 || len(out[len(out)-1]) == n {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], name)
	}
	return append(out, together)
}

// together are pieces of which some lie over one.
var together = []string{"visored-helmet", "visor", "crest"}

func readEvery(t *testing.T, names []string, form *body.Form, thickness float64, traced pattern.Face) {
	var orders []pattern.Order
	for _, name := range names {
		orders = append(orders, pattern.Order{Name: name, Template: name, Traced: traced})
	}
	set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{Thickness: thickness, K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	paper, err := tile.ParsePaper("2400 x 1200 mm")
	if err != nil {
		t.Fatal(err)
	}
	plan, found, err := tile.Lay(context.Background(), set, paper, nil)
	if err != nil {
		t.Fatal(err)
	}
	small := tooSmall(found)
	reading := readPages(plan, plan.Pages())
	for _, err := range reading.faults {
		if !small.concern(err) {
			t.Error(err)
		}
	}
	t.Logf("%d panels that the program says are too small for their texts: %v", len(small), small)
	t.Logf("%d edges: partners differ by at most %.1e mm in length or notches and meet within %.1e mm", reading.edges, reading.unlike, reading.gap)
}

// labels of panels.
type labels []string

// tooSmall are the panels that a finding says to write on by hand: nobody can
// read off the page what it has no room for.
func tooSmall(found []report.Finding) (out labels) {
	for _, f := range found {
		if strings.Contains(f.Said, "too small for all of its texts") {
			out = append(out, f.Subject)
		}
	}
	return out
}

// concern tells whether a fault is of what could not be written: it names such a
// panel, or nobody knows which one it was.
func (l labels) concern(fault error) bool {
	s := fault.Error()
	for _, label := range l {
		if regexp.MustCompile(`\b` + label + `\b`).MatchString(s) {
			return true
		}
	}
	return len(l) > 0 && (strings.Contains(s, `says it is ""`) || strings.HasPrefix(s, "template :") || strings.Contains(s, "say that they are joined"))
}
