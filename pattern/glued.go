package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// leastGlued is the shortest line that is marked where a flat part stands, mm
// (judgement).
const leastGlued = 10.0

// markGlued draws on the panels of the shell where a flat part meets their outer
// face: the line on which it is glued, or, of one that lies beside the shell, the
// part of its outline that lies over it.
func (p *Piece) markGlued(flat *Panel) {
	if len(flat.Surface.T) == 0 {
		return
	}
	met := false
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != OfShell {
			continue
		}
		for _, line := range p.gluedOn(panel, flat) {
			if panel.alongside(geom.At(line, geom.Length(line)/2), flat) > leastAlong {
				continue // it touches a part that lies on it somewhere, and where is chance
			}
			met = true
			panel.Marks = append(panel.Marks, Mark{Kind: "line", Line: line, Text: fmt.Sprintf("%s %s stands here, on the outside", flat.Label, flat.Name)})
		}
	}
	if !met {
		p.markBeside(flat)
	}
}

// A part stands on a panel where they meet at 30° or more, and lies beside it where
// they are 60° apart or less: by the cosine (judgement).
const leastAlong, leastBeside = 0.866, 0.5

// alongside is the cosine between a flat part and the panel at a place.
func (panel *Panel) alongside(q r2.Vec, flat *Panel) float64 {
	_, out := panel.Surface.LiftWithNormal(q)
	return math.Abs(r3.Dot(out, flat.Surface.normal(0)))
}

// gluedOn are the lines on the flat panel where its outer face passes through a
// flat part.
func (p *Piece) gluedOn(panel, flat *Panel) [][]r2.Vec {
	f := &flat.Surface
	normal := f.normal(0)
	at := f.Bent[f.T[0][0]]
	return panel.lineWhere(p, func(v r3.Vec) float64 { return r3.Dot(normal, r3.Sub(v, at)) }, f.holds)
}
