package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Copy is where a copy of a panel stands in its piece: the panel's mirror image
// about x = 0 of the piece, if it is one, moved. The panel itself is not moved.
type Copy struct {
	Mirrored bool
	Moved    geom.Frame // piece axes from those of the panel
}

// CopiesOf are the places of all copies of a panel in one piece (of a pair, the left
// one), the panel's own first.
func (p *Piece) CopiesOf(panel *Panel) []Copy {
	out := []Copy{{Moved: geom.Identity()}}
	for _, f := range panel.alike {
		out = append(out, Copy{Moved: f})
	}
	if panel.Flipped > 0 && panel.Copies >= 2*max(p.Copies, 1) {
		out = append(out, Copy{Mirrored: true, Moved: geom.Identity()})
	}
	return out
}

// What a mark says that is on one of two halves, or of several copies.
const (
	onTheFlipped = "only on the copy turned over"
	onTheOther   = "only on the copy not turned over"
	onNumber     = "only on copy %d of %d"
)

// HasMark tells whether copy k of a panel, as CopiesOf lists them, has one of its marks.
func (p *Piece) HasMark(panel *Panel, m Mark, k int) bool {
	switch m.Only {
	case "":
		return true
	case onTheFlipped, onTheOther:
		return p.CopiesOf(panel)[k].Mirrored == (m.Only == onTheFlipped)
	case oneCopy:
		return k == 0
	}
	return m.Only == fmt.Sprintf(onNumber, k+1, len(panel.alike)+1)
}

// numberOf is the number of a copy that is not turned over: 1 of the panel itself.
func (panel *Panel) numberOf(moved *geom.Frame) int {
	for k := range panel.alike {
		if moved == &panel.alike[k] {
			return k + 2
		}
	}
	return 1
}

// copiesGo is on which side of a copy the next one stands, seen on the outside with
// what is up on the template up: "right" or "left". It is "" where they do not stand
// side by side in that order, or some are turned over.
func (p *Piece) copiesGo(panel *Panel) string {
	if panel.Flipped > 0 || len(panel.alike) < 2 {
		return ""
	}
	middle := geom.Centroid(panel.Outline)
	at, out := panel.Surface.LiftWithNormal(middle)
	up := r3.Sub(panel.Surface.Lift(r2.Add(middle, panel.Up)), at)
	right := r3.Cross(up, out)
	step := r3.Sub(panel.alike[0].Point(at), at)
	before := at
	for _, f := range panel.alike {
		next := f.Point(at)
		if math.Abs(geom.Dist(next, before)-r3.Norm(step)) > sideBySide {
			return ""
		}
		before = next
	}
	if r3.Dot(step, right) > 0 {
		return "right"
	}
	return "left"
}

// sideBySide is how much less or more than from the first to the second copy may lie
// between the others, mm (detail).
const sideBySide = 0.5

// Point brings a point of the panel (piece axes) to the copy.
func (c Copy) Point(p r3.Vec) r3.Vec {
	if c.Mirrored {
		p.X = -p.X
	}
	return c.Moved.Point(p)
}

// Dir turns a direction as the copy is turned.
func (c Copy) Dir(d r3.Vec) r3.Vec {
	if c.Mirrored {
		d.X = -d.X
	}
	return c.Moved.Dir(d)
}

// Mesh is a mesh of the panel's on the copy, its triangles outwards.
func (c Copy) Mesh(m geom.Mesh) geom.Mesh {
	if c.Mirrored {
		m = m.MirroredX()
	}
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = c.Moved.Point(v)
	}
	return out
}
