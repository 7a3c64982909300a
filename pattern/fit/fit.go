// Package fit holds finished pieces against the body that will wear them:
// whether a piece can be put on, what can be seen out of it, and whether it lets
// the joints next to it bend. Foam is taken as rigid, which is on the safe side,
// and the findings say so.
//
// Pieces are bound to their segment, which turns about the joint's hinge with all
// that lies beyond it. A piece that floats over a joint turns by half the angle;
// the lames of a run share the angle between them, as far as the run bends. Each
// is taken past the flesh of the segments at the joint (with what is worn on it,
// taken as rigid and folded on the plane that halves the angle, so that what bare
// segments overlap counts for nothing) and past all pieces that turn otherwise.
package fit

import (
	"slices"
	"sync"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
)

// Check gives what a maker should know about wearing the pieces of a set.
func Check(set *pattern.Set, form *body.Form) []report.Finding {
	found := make([][]report.Finding, len(set.Pieces)+2)
	var all sync.WaitGroup
	for i := range set.Pieces {
		all.Go(func() { found[i] = alone(&set.Pieces[i], form) })
	}
	all.Go(func() { found[len(set.Pieces)] = clashes(set) })
	all.Go(func() { found[len(set.Pieces)+1] = moves(set, form) })
	all.Wait()
	return slices.Concat(found...)
}

// alone checks a piece by itself.
func alone(p *pattern.Piece, form *body.Form) []report.Finding {
	out := putOn(p, form)
	if p.Segment == body.Head {
		out = append(out, sight(p, form)...)
	}
	return out
}
