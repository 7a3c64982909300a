package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// anchor is where one end of a fastening stands.
type anchor struct {
	piece *Piece
	panel int
	q     r2.Vec
	moved *geom.Frame // on a further copy of the panel: where that stands
	image bool        // on the mirror image that is cut from the same template
	glued float64     // how long the patch of a strap is, mm
	asked r2.Vec      // where the template asks for it
	mark  int         // of the panel, that shows it
}

func (a anchor) on() *Panel { return &a.piece.Panels[a.panel] }

// place is the anchor in body axes, and the way that the piece looks there.
func (a anchor) place() (at, out r3.Vec) {
	at, out = a.on().Surface.LiftWithNormal(a.q)
	if a.moved != nil {
		at, out = a.moved.Point(at), a.moved.Dir(out)
	}
	if a.image {
		at.X, out.X = -at.X, -out.X
	}
	return a.piece.Frame.Point(at), a.piece.Frame.Dir(out)
}

// at is an end of a fastening before it is settled.
func (p *Piece) at(place placeOn) anchor {
	return anchor{piece: p, panel: place.panel, q: place.q, moved: place.moved, image: place.image}
}

// mirrored is the anchor on the copy that is turned over.
func (a anchor) mirrored() anchor {
	a.image = !a.image
	return a
}
