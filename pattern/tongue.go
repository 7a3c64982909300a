package pattern

import (
	"fmt"
	"slices"

	"tasset/internal/units"
	"tasset/pattern/template"
)

// addTongue notes the tongue under edges that meet where a lap is asked for, because
// both halves are cut from one template: as long as they are, and as wide as the lap
// under either of them.
func (b *builder) addTongue(p *Piece, lap float64) {
	if lap == 0 || p.lapped() {
		return
	}
	long := 0.0
	for i := range p.Panels {
		for _, e := range p.Panels[i].opens() {
			if p.Panels[i].Flipped == 0 {
				return
			}
			long += e.Length
		}
	}
	if long == 0 {
		return
	}
	said := fmt.Sprintf("Tongue: where it opens, the edges meet over a tongue of strong cloth or thin foam, %s long and %s wide. Half of its width is glued behind the one edge, that of the copies not turned over, and half lies loose behind the other. It has no template: cut it by these sizes.",
		units.Format(long, p.Units), units.Format(2*lap, p.Units))
	hooked := func(f template.Fastening) bool { return f.AtGap && f.Kind == "hook-and-loop" }
	if i := slices.IndexFunc(b.template.Fastenings, hooked); i >= 0 {
		said += " Its loose half has the hooks, on its outer face; the loops are on the inner face of the other edge."
		p.sayLoops(b.template.Fastenings[i])
	}
	p.Notes = append(p.Notes, said)
	p.Sheets = append(p.Sheets, Sheet{Name: "tongue", Of: "strong cloth or thin foam", Count: 1, Long: long, Broad: 2 * lap})
}

// sayLoops says of the strips of hook-and-loop along edges that meet over a tongue what
// is on which copy.
func (p *Piece) sayLoops(f template.Fastening) {
	name := f.Name
	if name == "" {
		name = f.Kind
	}
	for i := range p.Panels {
		for k, m := range p.Panels[i].Marks {
			if m.Kind == "fastening" && naming(m) == naming(Mark{Text: name}) {
				p.Panels[i].Marks[k].Text += "; glue the tongue here; on the copy turned over: the loops, inside"
			}
		}
	}
}
