package view

import (
	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// How lines are divided, on paper, mm. Details nobody sees.
const (
	look    = 0.8  // visibility is asked about this often along a line
	exact   = 0.02 // where it changes is found to this
	tooFine = 0.4  // shorter stretches and gaps are an edge grazing a surface
)

// Items are the visible parts of the scene's lines and silhouettes, the
// lightest first.
func (v *View) Items() []draw.Item { return v.lines(v.Visible) }

func (v *View) lines(isSeen func(r3.Vec) bool) []draw.Item {
	visible, _ := v.split(isSeen)
	var items []draw.Item
	for w := Ghost; w <= Outline; w++ {
		items = v.paint(items, visible[w], w.Stroke())
	}
	return items
}

// Hidden are the hidden parts of the scene's lines in one style, without those
// of ghosts and silhouettes.
func (v *View) Hidden(style draw.Style) []draw.Item {
	_, hidden := v.split(v.Visible)
	var items []draw.Item
	for w := Fold; w <= Outline; w++ {
		items = v.paint(items, hidden[w], style)
	}
	return items
}

func (v *View) paint(items []draw.Item, lines [][]r2.Vec, style draw.Style) []draw.Item {
	if len(lines) == 0 {
		return items
	}
	return append(items, &draw.Path{Subpaths: lines, Stroke: style, Layer: "frame"})
}

// split divides every line into what is seen and what is not, by weight.
func (v *View) split(isSeen func(r3.Vec) bool) (visible, hidden [Outline + 1][][]r2.Vec) {
	for _, l := range v.scene.Lines {
		seen, unseen := v.divide(l.Points, isSeen)
		visible[l.Weight] = append(visible[l.Weight], seen...)
		hidden[l.Weight] = append(hidden[l.Weight], unseen...)
	}
	solids := v.known.solids()
	for i, f := range v.scene.Faces {
		if f.Silhouette == None {
			continue
		}
		for _, l := range geom.Chain(solids[i].silhouette(v.eye)) {
			seen, _ := v.divide(l, isSeen)
			visible[f.Silhouette] = append(visible[f.Silhouette], seen...)
		}
	}
	return visible, hidden
}

// stretch is a part of a line, between two of its places, that is seen or not.
type stretch struct {
	from, to float64 // along the line on paper, mm
	seen     bool
}

// divide gives the parts of a line that are seen, and those that are not, on
// paper.
func (v *View) divide(line []r3.Vec, isSeen func(r3.Vec) bool) (seen, unseen [][]r2.Vec) {
	on := make([]r2.Vec, len(line))
	for i, p := range line {
		on[i] = v.At(p)
	}
	cum := geom.Lengths(on)
	for _, s := range stretches(line, cum, isSeen) {
		parts := clip(geom.Between(on, s.from, s.to), v.box)
		if s.seen {
			seen = append(seen, parts...)
		} else {
			unseen = append(unseen, parts...)
		}
	}
	return seen, unseen
}

// stretches asks at the middles of short pieces, so never at the ends of a
// line, which often touch other surfaces.
func stretches(line []r3.Vec, cum []float64, isSeen func(r3.Vec) bool) []stretch {
	if len(cum) < 2 || cum[len(cum)-1] < geom.Coincident {
		return nil
	}
	total := cum[len(cum)-1]
	at := func(s float64) bool {
		i, t := geom.Locate(cum, s)
		return isSeen(geom.Lerp(line[i], line[i+1], t))
	}
	n := int(total/look) + 1
	step := total / float64(n)
	runs := []stretch{{0, total, at(step / 2)}}
	for i := 1; i < n; i++ {
		last := &runs[len(runs)-1]
		here := (float64(i) + 0.5) * step
		if seen := at(here); seen != last.seen {
			lo, hi := here-step, here
			for hi-lo > exact {
				if mid := (lo + hi) / 2; at(mid) == seen {
					hi = mid
				} else {
					lo = mid
				}
			}
			last.to = hi
			runs = append(runs, stretch{hi, total, seen})
		}
	}
	return settled(runs)
}

// settled takes stretches that are too fine into their neighbours: first gaps,
// then what is left of lines.
func settled(runs []stretch) []stretch {
	for _, seen := range []bool{false, true} {
		var out []stretch
		for _, r := range runs {
			if r.seen == seen && r.to-r.from < tooFine && len(runs) > 1 {
				r.seen = !seen
			}
			if n := len(out); n > 0 && out[n-1].seen == r.seen {
				out[n-1].to = r.to
			} else {
				out = append(out, r)
			}
		}
		runs = out
	}
	return runs
}
