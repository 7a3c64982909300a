package pattern

import (
	"fmt"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// overlap is an error where lines of one class cross inside a panel: openings
// that overlap would leave an outline that crosses itself.
func (l *cutLines) overlap() error {
	all := slices.Concat(l.open, l.closed)
	lines, boxes := make([][]r2.Vec, len(all)), make([]r2.Box, len(all))
	for i := range all {
		lines[i] = all[i].line()
		boxes[i] = geom.Bounds(lines[i])
	}
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			one, other := &all[i].strokes[0], &all[j].strokes[0]
			if one.class == other.class && share(boxes[i], boxes[j]) && cross(lines[i], lines[j]) {
				return fmt.Errorf("%s and %s run into each other; move them apart", one.said(), other.said())
			}
		}
	}
	return nil
}

func share(a, b r2.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

func cross(a, b []r2.Vec) bool {
	for k := 0; k+1 < len(a); k++ {
		for l := 0; l+1 < len(b); l++ {
			if _, _, _, ok := crossed(a[k], a[k+1], b[l], b[l+1]); ok {
				return true
			}
		}
	}
	return false
}
