package pattern

import (
	"fmt"

	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r2"
)

// shrinkage is by what part of its length the foam gets shorter when it is
// heated; card is not heated.
func (b *builder) shrinkage() float64 {
	if b.order.MockUp {
		return 0
	}
	return b.material.Shrink
}

// enlarge draws a formed panel larger, so that it has its size once it has been
// heated and has shrunk.
func (p *rawPanel) enlarge(shrink float64) {
	if p.formed == nil || shrink == 0 {
		return
	}
	for i, q := range p.surf.Flat {
		p.surf.Flat[i] = r2.Scale(1/(1-shrink), q)
	}
	p.shrink = shrink
}

// heated tells of the foam's shrinking: what is put into the templates, and what
// is not.
func (s *Set) heated(shrink float64) []report.Finding {
	formed, bent := false, false
	for i := range s.Pieces {
		for _, p := range s.Pieces[i].Panels {
			formed, bent = formed || p.Formed != nil, bent || p.Formed == nil
		}
	}
	var f report.Finding
	switch {
	case shrink == 0 && formed:
		f = report.Notef("material", "formed panels are drawn as if heated foam kept its size; most foam shrinks by 1 to 3 %% (common practice, no source).")
		f.Perhaps = "Do the heat test on the page of scrap tests, and write what it tells as shrink."
	case shrink > 0 && formed:
		f = report.Notef("material", "formed panels are drawn larger by the shrink of %.1f %%; a bent panel beside one is not, and they meet once the formed one has been heated.", 100*shrink)
	case shrink > 0 && bent:
		f = report.Doubtf("material", "shrink of %.1f %% is not put into the templates: no piece here is heated into shape, all are bent.", 100*shrink)
		f.Perhaps = "If you heat the foam all the same, heat it before you cut."
	default:
		return nil
	}
	return []report.Finding{f}
}

// shrinks is what a formed panel's page says of it.
func shrinks(shrink float64) string {
	if shrink == 0 {
		return ""
	}
	return fmt.Sprintf(" Drawn %.1f %% larger: heated, it shrinks to its size.", 100*(1/(1-shrink)-1))
}
