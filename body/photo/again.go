package photo

import (
	"fmt"

	"tasset/internal/report"
)

// Marks further off than this deserve a look, even among marks that miss each
// other all over: about three times what the landmark that is hardest to place is
// usually off (judgement), mm.
const (
	farOnHead = 6
	farOnBody = 25
)

// Far tells whether a mark on a view is so far from where all marks together put
// its point that it deserves a look, though it may fit.
func (f Fit) Far(v View) bool {
	if v.OfHead() {
		return f.MM > farOnHead
	}
	return f.MM > farOnBody
}

// Again names the marks that fit, but are far enough off to be looked at again.
func (s *Subject) Again() []report.Finding {
	if s == nil {
		return nil
	}
	var out []report.Finding
	for _, f := range s.Fits {
		shot := s.Shots[f.Shot]
		if !f.Fits() || !f.Far(shot.View) {
			continue
		}
		g := report.Doubtf(fmt.Sprintf("%s in %s", f.Name, shot.Name), "It stands %.1f mm from where all marks together put it, more than careful marks do.", f.MM)
		g.Where = shot.Marks[f.Mark].Where
		g.Perhaps = "Look at it again, and at the same point in the other pictures: one of them is off."
		out = append(out, g)
	}
	return out
}
