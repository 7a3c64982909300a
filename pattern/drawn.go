package pattern

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// Drawn is a curve that the maker has drawn on a photograph, as rays from the
// lens in body axes. The curve runs smoothly through its points as the lens sees
// them, and is cut where the rays meet the neutral surface of the piece.
//
// An opening is a closed curve, and takes the place of all openings of the
// template of that name; with a name that the template does not have it is cut
// besides. It is cut out of the side that the lens sees, and may run out over a
// rim. On a piece that is its own mirror image, an opening that goes across the
// middle is made even (half way between left and right), one beside the middle
// is cut on both sides, and two of one name, on either side, are made alike.
//
// An edge is an open curve from one side of what is seen to the other; what lies
// beyond it, away from the middle of the piece, is cut off. Its name is "rim",
// "lower rim", "upper rim" or that of the template's first or last ring. On a
// piece that is its own mirror image, a curve drawn from the side makes that
// half of the rim, carried on level to the middle line, and its image the other;
// one drawn from the front or from behind makes the rim there, evenly. On any
// other piece the edge goes straight through to the far side. It may cross
// openings.
//
// A seam is an open curve from edge to edge over one or more panels, each of
// which it cuts in two that share its line; a part of it that ends inside a panel
// cuts nothing there, and may be no longer than a slip of the hand. Its name is
// the number of the seam whose place it takes, as counted without drawn seams, or
// "new". On a piece that is its own mirror image, its image is a seam as well. It
// may cross openings and edges.
//
// On one limb of a pair, a curve may have been drawn on the other.
type Drawn struct {
	Kind   DrawnKind
	Name   string
	Eye    r3.Vec   // the lens, mm
	Rays   []r3.Vec // one for each point of the curve, in turn; of any length
	Corner []bool   // where the curve turns sharply; nil: nowhere, else one for each ray
	Mirror bool     // on the middle of the body: the mirror image is cut as well, even if the piece is not its own
	AsSeen bool     // openings, and edges from the front or behind: as drawn, not made even
	On     string   // the photograph, as the maker calls it
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

// checkDrawn refuses kinds of curve that cannot be cut.
func checkDrawn(drawn []Drawn) error {
	for _, d := range drawn {
		switch d.Kind {
		case DrawnOpening, DrawnEdge, DrawnSeam:
		default:
			return placed{d.Where, fmt.Errorf("%q cannot be drawn on a photograph; an opening, an edge or a seam can", d.Kind)}
		}
	}
	return nil
}

// drawn are the cutouts of the curves drawn on photographs, and the places where
// the lower rim (true) and the upper one (false) were drawn.
func (b *builder) drawn(shape *shape, panels []rawPanel) ([]cutout, map[bool]string, error) {
	if len(b.order.Drawn) == 0 {
		return nil, nil, nil
	}
	w := newWalls(panels)
	var out []cutout
	var openings []*solidSketch
	rimAt := map[bool]string{} // where the upper and the lower rim were drawn
	for _, d := range b.order.Drawn {
		s, err := b.sketch(d, w)
		var cut *cutout
		var seams []cutout
		switch {
		case err != nil:
		case d.Kind == DrawnSeam:
			seams, err = b.drawnSeam(s, w)
		case d.Kind == DrawnEdge:
			cut, err = b.drawnRim(s, shape, w, rimAt)
		default:
			var o *solidSketch
			if o, err = b.solidSketch(s, w); err == nil {
				openings = append(openings, o)
			}
		}
		if err != nil {
			return nil, nil, placed{d.Where, fmt.Errorf("%s %q: %w", d.Kind, d.Name, err)}
		}
		if cut != nil {
			out = append(out, *cut)
		}
		out = append(out, seams...)
	}
	if err := b.nameOpenings(openings, shape.cuts, panels); err != nil {
		return nil, nil, err
	}
	cuts, err := b.drawnOpenings(openings)
	return append(out, cuts...), rimAt, err
}
