package costume

import (
	"slices"

	"tasset/body"
	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// The picture of a catalogue, mm: a cell for each piece, its title at the foot.
const (
	cellWidth, cellHeight = 30.0, 37.0
	cellAir, cellTitle    = 1.5, 2.2
	cellsAcross           = 7
	cellPen               = 0.5 // of the pen of a drawing of its own
)

// CataloguePicture draws pieces side by side, from head to foot and then what is
// carried: SVG, PNG or PDF by the file's ending.
func CataloguePicture(pieces []*Sampled, file string) ([]byte, error) {
	pieces = slices.Clone(pieces)
	slices.SortStableFunc(pieces, func(a, b *Sampled) int { return a.rank() - b.rank() })
	rows := (len(pieces) + cellsAcross - 1) / cellsAcross
	page := draw.Page{Width: cellsAcross * cellWidth, Height: float64(rows) * cellHeight, Title: "Catalogue"}
	for i, s := range pieces {
		x, y := float64(i%cellsAcross)*cellWidth, page.Height-float64(i/cellsAcross+1)*cellHeight
		box := draw.Rect{Min: r2.Vec{X: x + cellAir, Y: y + 2*cellAir + cellTitle}, Max: r2.Vec{X: x + cellWidth - cellAir, Y: y + cellHeight - cellAir}}
		for _, it := range s.drawn(box) {
			if p, ok := it.(*draw.Path); ok {
				p.Stroke.Width *= cellPen
			}
			page.Items = append(page.Items, it)
		}
		page.Items = append(page.Items, &draw.Text{At: r2.Vec{X: x + cellWidth/2, Y: y + cellAir}, Size: cellTitle, Align: draw.Centre, S: s.Piece.Title, Layer: "text"})
	}
	return asFile(page, file)
}

// headToFoot are the parts of the body in the order of a catalogue.
var headToFoot = []body.Segment{body.Head, body.Neck, body.Torso, body.UpperArm, body.Forearm, body.Hand, body.Thigh, body.Shank, body.Foot}

// rank orders pieces from head to foot; what is carried comes last.
func (s *Sampled) rank() int {
	if i := slices.Index(headToFoot, movesWith(s.Piece)); i >= 0 {
		return i
	}
	return len(headToFoot)
}
