package pattern

import (
	"fmt"
	"slices"
)

// giveCodes makes the letters on panels tell pieces apart: a second piece of
// the same code gets a number behind its letters.
func giveCodes(set *Set) {
	seen := map[string]int{}
	for i := range set.Pieces {
		p := &set.Pieces[i]
		seen[p.Code]++
		if n := seen[p.Code]; n > 1 {
			p.relabel(p.Code, fmt.Sprintf("%s%c", p.Code, 'a'+rune(n-1)))
		}
	}
}

// relabel leaves the panels that the piece was copied with as they are.
func (p *Piece) relabel(from, to string) {
	p.Code, p.Panels = to, slices.Clone(p.Panels)
	for i := range p.Panels {
		p.Panels[i].Label = to + p.Panels[i].Label[len(from):]
		p.Panels[i].Edges = slices.Clone(p.Panels[i].Edges)
		for j := range p.Panels[i].Edges {
			if e := &p.Panels[i].Edges[j]; e.Partner != "" {
				e.Partner = to + e.Partner[len(from):]
			}
		}
	}
}
