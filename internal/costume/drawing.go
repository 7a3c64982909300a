package costume

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/draw/pdf"
	"tasset/internal/draw/png"
	"tasset/internal/draw/svg"
	"tasset/pattern"

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

// Drawing draws a piece as it is worn, by itself, with its title below if asked:
// SVG, PNG or PDF by the file's ending. A flat piece goes round no part of the
// body.
func Drawing(p *pattern.Piece, file string, titled bool) ([]byte, error) {
	scene := booklet.Portrait(p)
	if p.Flat || len(scene.Faces) == 0 {
		return nil, fmt.Errorf("the %s is cut flat by its outline, so there is no drawing of it worn; its page in the templates shows it", p.Name)
	}
	page := draw.Page{Width: drawingWidth, Height: drawingHeight}
	box := draw.Rect{Min: r2.Vec{X: 3, Y: 3}, Max: r2.Vec{X: drawingWidth - 3, Y: drawingHeight - 3}}
	if titled {
		page.Title = p.Title
		box.Min.Y += titleRoom
		page.Items = append(page.Items, &draw.Text{At: r2.Vec{X: drawingWidth / 2, Y: 4}, Size: titleSize, Align: draw.Centre, S: p.Title, Layer: "text"})
	}
	page.Items = append(page.Items, booklet.Shaded(scene, booklet.Facing(scene), box, toneMM)...)
	return asFile(page, file)
}

// The picture of the whole costume, mm; three views stand side by side.
const suitWidth, suitHeight = 180.0, 165.0

// Picture draws the costume on its wearer, from the front, from the left and
// from behind: SVG, PNG or PDF by the file's ending.
func (r *Result) Picture(title, file string) ([]byte, error) {
	page := draw.Page{Width: suitWidth, Height: suitHeight, Title: title}
	box := draw.Rect{Min: r2.Vec{X: 5, Y: 5}, Max: r2.Vec{X: suitWidth - 5, Y: suitHeight - 5}}
	page.Items = booklet.SuitViews(booklet.Suit(r.Set.Pieces, r.Form.Figure()), box, toneMM)
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
