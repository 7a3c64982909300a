package tile

import (
	"slices"

	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// How far a dash is moved at most to stand off a patch, and in steps of how much, mm.
const (
	dashFar  = 60.0
	dashStep = 3.0
)

// dashesApart is a panel whose dashes, which tell where on the body a place sits, are
// moved up or down out of patches, in which they seem to be a part of those. Which side
// of the body it is stays true.
func dashesApart(panel *pattern.Panel) *pattern.Panel {
	var patches [][]r2.Vec
	for _, m := range panel.Marks {
		if len(m.Axis) > 0 {
			patches = append(patches, m.Line)
		}
	}
	if len(patches) == 0 {
		return panel
	}
	out := *panel
	out.Marks = slices.Clone(panel.Marks)
	for i, m := range out.Marks {
		if m.Kind == "text" && meetsAny(m.Line, patches) {
			out.Marks[i].Line = movedOff(m.Line, panel, patches)
		}
	}
	return &out
}

// movedOff is a dash at the nearest place above or below that is on the panel and in no
// patch, or where it is.
func movedOff(dash []r2.Vec, panel *pattern.Panel, patches [][]r2.Vec) []r2.Vec {
	for off := dashStep; off <= dashFar; off += dashStep {
		for _, by := range []float64{off, -off} {
			moved := make([]r2.Vec, len(dash))
			for i, q := range dash {
				moved[i] = r2.Add(q, r2.Scale(by, panel.Up))
			}
			if !meetsAny(moved, patches) && !slices.ContainsFunc(moved, func(q r2.Vec) bool { return !geom.Inside(panel.Outline, q) }) {
				return moved
			}
		}
	}
	return dash
}

// meetsAny tells whether a dash comes into a patch.
func meetsAny(dash []r2.Vec, patches [][]r2.Vec) bool {
	return slices.ContainsFunc(patches, func(ring []r2.Vec) bool {
		return slices.ContainsFunc(append(dash[:len(dash):len(dash)], middleOf(dash)), func(q r2.Vec) bool { return geom.Inside(ring, q) })
	})
}
