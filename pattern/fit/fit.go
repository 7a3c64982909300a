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

// Fit is what a maker should know about wearing the pieces of a set, with all that
// it was found from, so that Again need look at nothing twice.
type Fit struct {
	Findings []report.Finding

	form     *body.Form
	hinges   []hinge
	pieces   []*held
	clashes  memory[two, *clash]
	contacts []memory[meets, *contact] // of each hinge
	onHead   []judged
}

// Check holds the pieces of a set against the body and each other.
func Check(set *pattern.Set, form *body.Form) *Fit { return (*Fit)(nil).Again(set, form) }

// Again is Check for who has an earlier result: only pieces that were not taken over
// into the set, and what may meet them, are looked at. The form must be the earlier
// one if the body is the same.
func (f *Fit) Again(set *pattern.Set, form *body.Form) *Fit {
	now := f.next(set, form)
	var parts []*worn
	for _, p := range now.pieces {
		parts = append(parts, p.parts...)
	}
	own := make([][]report.Finding, len(now.pieces))
	var all sync.WaitGroup
	for i, p := range now.pieces {
		all.Go(func() { own[i] = p.puts() })
	}
	var atRest []clash
	all.Go(func() {
		atRest = clashes(parts, now.clashes)
		now.onHead = judge(headwearOf(now.pieces, atRest), now.onHead, form)
	})
	var met []contact
	all.Go(func() { met = contacts(parts, form, now.hinges, now.contacts) })
	all.Wait()
	now.Findings = slices.Concat(own...)
	for _, c := range atRest {
		now.Findings = append(now.Findings, c.finding())
	}
	for _, h := range now.onHead {
		now.Findings = append(now.Findings, h.findings...)
	}
	now.Findings = append(now.Findings, told(met, atRest, form)...)
	return now
}

// next is the result for a further set before anything was looked at.
func (f *Fit) next(set *pattern.Set, form *body.Form) *Fit {
	if f == nil || f.form != form {
		f = &Fit{form: form, hinges: hinges(form)}
		f.contacts = make([]memory[meets, *contact], len(f.hinges))
	}
	now := &Fit{form: form, hinges: f.hinges, clashes: f.clashes.next(), onHead: f.onHead}
	for _, m := range f.contacts {
		now.contacts = append(now.contacts, m.next())
	}
	for i := range set.Pieces {
		p := &set.Pieces[i]
		if k := slices.IndexFunc(f.pieces, func(h *held) bool { return p.TakenOver(h.Piece) }); k >= 0 {
			now.pieces = append(now.pieces, f.pieces[k])
		} else {
			now.pieces = append(now.pieces, hold(*p, form))
		}
	}
	return now
}
