package tile

import (
	"slices"

	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// covered draws the lines up to which lames lie over the panel, with gaps where texts
// stand, and strokes on the side that they and what is glued on cover.
func (d *drawing) covered() {
	for _, m := range d.panel.Marks {
		if m.Kind != pattern.MarkCovered && !m.Covers {
			continue
		}
		for _, run := range d.onPanel(m.Line) {
			if !m.Covers {
				d.betweenTexts(run)
			}
			for _, stroke := range coveredStrokes(run) {
				if !d.likeNotch(stroke) && !slices.ContainsFunc(d.w.PageFromPanel.ApplyAll(stroke), d.inText) {
					d.line(stroke, false, fineLine, "mark")
				}
			}
		}
	}
}

// betweenTexts draws a line with gaps where texts stand.
func (d *drawing) betweenTexts(run []r2.Vec) {
	var free []r2.Vec
	for _, p := range geom.Resample(run, max(2, int(geom.Length(run)/0.5)+1)) {
		if d.inText(d.w.PageFromPanel.Apply(p)) {
			d.line(free, false, markLine, "mark")
			free = nil
			continue
		}
		free = append(free, p)
	}
	d.line(free, false, markLine, "mark")
}

// The strokes on the covered side of a line, mm: how far apart they stand and how
// long they are.
const (
	strokeStep  = 7.0
	coveredDeep = 2.5
)

// coveredStrokes stand at the left of a line.
func coveredStrokes(line []r2.Vec) (out [][]r2.Vec) {
	n := max(2, int(geom.Length(line)/strokeStep))
	for i := range n {
		out = append(out, strokeAt(line, (float64(i)+0.5)/float64(n)))
	}
	return out
}

// strokeAt is a stroke at the left of a line, at a share of its length.
func strokeAt(line []r2.Vec, share float64) []r2.Vec {
	cum := geom.Lengths(line)
	s := share * cum[len(cum)-1]
	foot := geom.AtLength(line, cum, s)
	along := r2.Unit(r2.Sub(geom.AtLength(line, cum, s+geom.Detail), geom.AtLength(line, cum, s-geom.Detail)))
	return []r2.Vec{foot, r2.Add(foot, r2.Scale(coveredDeep, r2.Vec{X: -along.Y, Y: along.X}))}
}

// likeNotch tells whether a stroke comes so near to an edge that it would be read as
// one of its notches.
func (d *drawing) likeNotch(stroke []r2.Vec) bool {
	return slices.ContainsFunc(d.panel.Edges, func(e pattern.Edge) bool {
		return min(away(e.Line, stroke[0]), away(e.Line, stroke[1])) < coveredDeep
	})
}
