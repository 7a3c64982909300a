// Package fit holds finished pieces against the body that will wear them:
// whether a piece can be put on and what can be seen out of it. Foam is taken
// as rigid, which is on the safe side, and the findings say so.
package fit

import (
	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
)

// Check gives what a maker should know about wearing the pieces of a set.
func Check(set *pattern.Set, form *body.Form) []report.Finding {
	var out []report.Finding
	for i := range set.Pieces {
		p := &set.Pieces[i]
		out = append(out, putOn(p, form)...)
		if p.Segment == body.Head {
			out = append(out, sight(p, form)...)
		}
	}
	return out
}
