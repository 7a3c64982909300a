package pattern

import (
	"tasset/internal/geom"

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
