package pattern

import (
	"fmt"
	"slices"
	"strings"
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
	p.Straps, p.Notes = slices.Clone(p.Straps), slices.Clone(p.Notes)
	for i := range p.Notes {
		p.Notes[i] = p.named(p.Notes[i], from, to)
	}
	for i := range p.Straps {
		s := &p.Straps[i]
		s.From = to + s.From[len(from):]
		if s.To != "" {
			s.To = to + s.To[len(from):]
		}
	}
	for i := range p.Panels {
		p.Panels[i].Label = to + p.Panels[i].Label[len(from):]
		p.Panels[i].Edges = slices.Clone(p.Panels[i].Edges)
		p.Panels[i].Marks = slices.Clone(p.Panels[i].Marks)
		p.Panels[i].Name = p.named(p.Panels[i].Name, from, to)
		for j := range p.Panels[i].Marks {
			p.Panels[i].Marks[j].Text = p.named(p.Panels[i].Marks[j].Text, from, to)
		}
		for j := range p.Panels[i].Edges {
			if e := &p.Panels[i].Edges[j]; e.Partner != "" {
				e.Partner = to + e.Partner[len(from):]
			}
		}
	}
}

// named writes the new labels of the piece's panels into what is said of them.
func (p *Piece) named(said, from, to string) string {
	words := strings.Split(said, " ")
	for i, w := range words {
		if n, ok := strings.CutPrefix(w, from); ok && n != "" && strings.Trim(n, "0123456789") == "" {
			words[i] = to + n
		}
	}
	return strings.Join(words, " ")
}
