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
// segments overlap counts for nothing) and past all pieces that turn otherwise. Plates
// that hang from the trunk before the thighs are lifted by them, and so left out.
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
	found := make([][]report.Finding, len(set.Pieces)+3)
	own := found[:len(set.Pieces)]
	atRest, onHead, moved := &found[len(own)], &found[len(own)+1], &found[len(own)+2]
	var met []clash
	clashed := make(chan struct{})
	parts := suit(set)
	var all sync.WaitGroup
	for i := range set.Pieces {
		all.Go(func() { own[i] = putOn(&set.Pieces[i], form) })
	}
	all.Go(func() {
		met = clashes(parts)
		close(clashed)
		for _, c := range met {
			*atRest = append(*atRest, c.finding())
		}
		for _, h := range headwearOf(set, met) {
			*onHead = append(*onHead, sight(h, form)...)
			*onHead = append(*onHead, breath(h, form)...)
		}
	})
	all.Go(func() { *moved = moves(parts, form, func() []clash { <-clashed; return met }) })
	all.Wait()
	return slices.Concat(found...)
}
