package booklet

import (
	"fmt"
	"slices"
	"strings"

	"tasset/pattern"
)

// fasteningsOf lists what holds a piece beside straps: what the mark says, its number,
// and the panels that it is on.
func fasteningsOf(p *pattern.Piece) []entry {
	var heads, texts []string
	on := map[string][]string{} // panels, by a mark's text
	for i := range p.Panels {
		for _, m := range p.Panels[i].Marks {
			if m.Kind != "fastening" || m.Text == "" || ofStrap(p, m) {
				continue
			}
			if on[m.Text] == nil {
				texts = append(texts, m.Text)
			}
			if label := p.Panels[i].Label; !slices.Contains(on[m.Text], label) {
				on[m.Text] = append(on[m.Text], label)
			}
		}
	}
	said := map[string][]string{} // by its name
	for _, text := range texts {
		name, rest, _ := strings.Cut(text, ",")
		number := ""
		if k := strings.LastIndex(name, " "); k > 0 && strings.Trim(name[k+1:], "0123456789") == "" {
			name, number = name[:k], name[k+1:]
		}
		if said[name] == nil {
			heads = append(heads, name)
		}
		one := fmt.Sprintf("on %s", strings.Join(on[text], " and "))
		if number != "" {
			one = number + " " + one
		}
		if rest = strings.TrimSpace(rest); rest != "" {
			one += " (" + rest + ")"
		}
		said[name] = append(said[name], one)
	}
	var out []entry
	for _, name := range heads {
		out = append(out, entry{name, strings.Join(said[name], "; ")})
	}
	return out
}

// ofStrap tells whether a mark is one end of a strap, of this piece or of another.
func ofStrap(p *pattern.Piece, m pattern.Mark) bool {
	return len(m.Axis) > 0 || slices.ContainsFunc(p.Straps, func(s pattern.Strap) bool { return shows(m, s) })
}
