package costume

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"tasset/body"
	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/draw/pdf"
	"tasset/internal/draw/png"
	"tasset/internal/draw/svg"
	"tasset/internal/view"

	"gonum.org/v1/gonum/spatial/r2"
)

// The drawing of a piece, mm; its title stands below it.
const (
	drawingWidth, drawingHeight = 100.0, 110.0
	titleRoom, titleSize        = 9.0, 4.5
)

// How finely pictures are painted, pixels a mm.
const (
	pxPerMM = 8  // of a PNG file
	toneMM  = 10 // of the shading within a drawing
)

// Drawing draws a piece as it is worn, among the parts of the body and the pieces
// that it goes on, in lighter tones, with its title below if asked: SVG, PNG or PDF
// by the file's ending. A flat piece goes round no part of the body.
func (s *Sampled) Drawing(file string, titled bool) ([]byte, error) {
	p := s.Piece
	if p.Flat {
		return nil, fmt.Errorf("the %s is cut flat by its outline, so there is no drawing of it worn; its page in the templates shows it", p.Name)
	}
	page := draw.Page{Width: drawingWidth, Height: drawingHeight}
	box := draw.Rect{Min: r2.Vec{X: 3, Y: 3}, Max: r2.Vec{X: drawingWidth - 3, Y: drawingHeight - 3}}
	if titled {
		page.Title = p.Title
		box.Min.Y += titleRoom
		page.Items = append(page.Items, &draw.Text{At: r2.Vec{X: drawingWidth / 2, Y: 4}, Size: titleSize, Align: draw.Centre, S: p.Title, Layer: "text"})
	}
	page.Items = append(page.Items, s.drawn(box)...)
	return asFile(page, file)
}

// drawn is the piece's drawing in a box.
func (s *Sampled) drawn(box draw.Rect) []draw.Item {
	scene := booklet.Portrait(s.Piece)
	seg := movesWith(s.Piece)
	if seg == "" {
		return s.carried(scene, box)
	}
	if onTrunk(seg) {
		scene = booklet.Both(s.Piece, scene)
	}
	cam := booklet.Facing(scene)
	if at, opens := booklet.Closing(s.Piece); opens && alone(seg) {
		cam = booklet.TurnedTo(cam, at)
	}
	return booklet.Within(booklet.Among(scene, s.Others, ghostOf(s.Piece, s.Form), cam), cam, box, fills(seg), toneMM)
}

// fills is the share of a drawing that a piece takes: the rest shows enough round it
// to tell the part of the body.
func fills(seg body.Segment) float64 {
	switch {
	case alone(seg):
		return 0.5
	case seg == body.Head:
		return 0.7
	}
	return 0.58
}

// carried is a piece that is held: a long one beside a figure of the wearer,
// another one large, with such a picture in a corner.
func (s *Sampled) carried(scene view.Scene, box draw.Rect) []draw.Item {
	const (
		long  = 0.5 // of the figure's height
		inset = 0.3 // of the box's width
	)
	skin := s.Form.Figure()
	beside := booklet.Carried(scene, skin)
	aside := view.Camera{Yaw: math.Pi / 9, Pitch: math.Pi / 24}
	if booklet.Length(scene) > long*booklet.Length(view.Scene{Faces: []view.Face{{Mesh: skin}}}) {
		return booklet.Within(beside, aside, box, 1, toneMM)
	}
	corner, rest := box, box
	corner.Max.X = box.Min.X + inset*(box.Max.X-box.Min.X)
	corner.Max.Y = box.Min.Y + 2*inset*(box.Max.X-box.Min.X)
	rest.Min.X = corner.Max.X
	return append(booklet.Within(beside, aside, corner, 1, toneMM), booklet.Within(scene, booklet.Facing(scene), rest, 0.95, toneMM)...)
}

// The picture of the whole costume, mm; three views stand side by side.
const suitWidth, mostSuitHeight, suitMargin = 180.0, 165.0, 5.0

// Picture draws the costume on its wearer, from the front, from the left and
// from behind: SVG, PNG or PDF by the file's ending.
func (r *Result) Picture(title, file string) ([]byte, error) {
	suit := booklet.Suit(r.Set.Pieces, r.Form.Figure())
	high := math.Ceil(2*suitMargin + booklet.SuitHeight(suit, suitWidth-2*suitMargin, mostSuitHeight-2*suitMargin)) // whole pixels
	page := draw.Page{Width: suitWidth, Height: high, Title: title}
	box := draw.Rect{Min: r2.Vec{X: suitMargin, Y: suitMargin}, Max: r2.Vec{X: suitWidth - suitMargin, Y: high - suitMargin}}
	page.Items = booklet.SuitViews(suit, box, toneMM)
	return asFile(page, file)
}

// Drawable tells whether a file's ending names a format for drawings: nil, or
// what would be right.
func Drawable(file string) error {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg", ".png", ".pdf":
		return nil
	}
	return fmt.Errorf("%s ends in none of .svg, .png and .pdf; name the picture so", file)
}

// asFile writes one page in the format that a file's ending names.
func asFile(page draw.Page, file string) ([]byte, error) {
	var b bytes.Buffer
	err := Drawable(file)
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg":
		err = svg.Write(&b, page)
	case ".png":
		err = png.Write(&b, page, pxPerMM)
	case ".pdf":
		err = pdf.Write(&b, []draw.Page{page}, pdf.Info{Title: page.Title})
	}
	return b.Bytes(), err
}
