package fit_test

import (
	"context"
	"strings"
	"testing"

	"tasset/internal/report"
	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/templates"
)

// Horns are set on a helmet, and two helmets are worn one or the other.
func TestCheck_hornsGoOnAHelmet(t *testing.T) {
	form := wearer(t)
	for _, c := range []struct{ with, says, not string }{
		{"horns", "to the curve of the other", "one or the other"},
		{"helm", "one or the other", "to the curve of the other"},
	} {
		orders := []pattern.Order{{Name: "open helmet", Template: "open-helmet"}, {Name: c.with, Template: c.with}}
		set, _, err := pattern.Make(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, f := range fit.Check(set, form).Findings {
			if strings.Contains(f.Said, "before anything moves") {
				said += f.Perhaps
				if f.Level != report.Note {
					t.Errorf("with %s: %v", c.with, f)
				}
			}
		}
		if !strings.Contains(said, c.says) || strings.Contains(said, c.not) {
			t.Errorf("with %s it is said %q", c.with, said)
		}
	}
}
