package booklet

import (
	"fmt"
	"strings"

	"tasset/pattern"
)

// layersOf tells which flat parts are glued on each other, face to face.
func layersOf(p *pattern.Piece) (out []entry) {
	for i := range p.Panels {
		panel := &p.Panels[i]
		var said []string
		for _, outside := range []bool{true, false} {
			var on []string
			for _, l := range p.Laid {
				if l.Under == i && l.Outside == outside {
					on = append(on, p.Panels[l.Over].Label)
				}
			}
			if len(on) > 0 {
				face := "inside"
				if outside {
					face = "outside"
				}
				said = append(said, strings.Join(on, " and ")+" on its "+face)
			}
		}
		if n := panel.Copies / max(p.Copies, 1); panel.Role == pattern.FlatPart && len(panel.Surface.T) > 0 && n > 1 && len(p.CopiesOf(panel)) == 1 {
			said = append(said, fmt.Sprintf("its %d copies on each other", n))
		}
		if len(said) > 0 {
			out = append(out, entry{panel.Label, panel.Name + ": " + strings.Join(said, ", ")})
		}
	}
	return out
}
