package pattern

import "gonum.org/v1/gonum/spatial/r3"

// Drawn is a curve that the maker has drawn on a photograph, as rays from the
// lens in body axes.
//
// An opening is a closed curve; it takes the place of all openings of the
// template of that name, and is cut out of the side of the piece that is seen
// from the lens. Two openings of one name are a left and a right one.
//
// An edge is an open curve, running round the piece from one side of what is
// seen to the other; what lies beyond it, away from the middle of the piece, is
// cut away. Name is the ring that it stands for, or just "rim".
type Drawn struct {
	Kind   DrawnKind
	Name   string   // "eye slot", "rim"
	Eye    r3.Vec   // the lens, body axes, mm
	Rays   []r3.Vec // directions in body axes, one for each point of the curve
	Corner []bool   // where the curve turns sharply; nil: nowhere
	Mirror bool     // the mirror image is cut as well; as a matter of course on a piece that is its own mirror image
	AsSeen bool     // a piece that is its own mirror image is cut as drawn, not evenly on both sides
	Where  string   // place in costume.yaml
}

// DrawnKind is what a curve is drawn for.
type DrawnKind string

// The kinds of curve, by the words that makers write.
const (
	DrawnOpening DrawnKind = "opening"
	DrawnEdge    DrawnKind = "edge"
	DrawnSeam    DrawnKind = "seam"
)
