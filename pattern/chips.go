package pattern

import (
	"math"

	"tasset/internal/geom"
)

// chip is the least that a cut may leave of a panel, mm² (judgement: some 17 mm
// square): less can hardly be cut, joined and held.
const chip = 300.0

// withoutChips takes out what cuts have left of panels where it is no more than a
// chip. What it would have been joined to ends there as at the cut.
func withoutChips(parts []part) []part {
	var out []part
	var gone []*part
	for i := range parts {
		if p := &parts[i]; p.cutBy() != nil && geom.Area(p.outline()) < chip {
			gone = append(gone, p)
			continue
		}
		out = append(out, parts[i])
	}
	if len(out) == 0 {
		return parts
	}
	for _, c := range gone {
		cut := c.cutBy()
		for _, e := range c.edges {
			if e.seam >= 0 {
				endAt(out, e, cut)
			}
		}
	}
	return out
}

// endAt makes free edges of those that lie on the other side of a seam's stretch.
func endAt(parts []part, seam rawEdge, cut *rawEdge) {
	for i := range parts {
		for k := range parts[i].edges {
			e := &parts[i].edges[k]
			if e.seam == seam.seam && math.Abs(e.from-seam.from) < geom.Detail && math.Abs(e.to-seam.to) < geom.Detail {
				*e = rawEdge{kind: cut.kind, seam: atRim, pts: e.pts, name: cut.name, drawn: cut.drawn, side: -1}
			}
		}
	}
}
