package costume

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/draw/png"
	"tasset/internal/draw/svg"
	"tasset/internal/units"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// The drawing of a piece: two views side by side, mm.
const (
	viewWidth, viewHeight = 90.0, 110.0
	pxPerMM               = 8
)

// Drawing draws a piece as it is worn, from the front and from the side: SVG or
// PNG by the file's ending. A flat piece goes round no part of the body.
func (r *Result) Drawing(p *pattern.Piece, file string) ([]byte, error) {
	if p.Flat {
		return nil, fmt.Errorf("the %s is cut flat by its outline, so there is no drawing of it worn; its page in the templates shows it", p.Name)
	}
	page := draw.Page{Width: 2*viewWidth + 10, Height: viewHeight, Title: p.Title}
	scene := booklet.OnBody(booklet.PieceScene(p), r.Form.Mesh())
	for i, yaw := range []float64{25, 100} {
		x := float64(i) * (viewWidth + 10)
		box := draw.Rect{Min: r2.Vec{X: x + 3, Y: 3}, Max: r2.Vec{X: x + viewWidth - 3, Y: viewHeight - 3}}
		page.Items = append(page.Items, view.Draw(scene, view.Camera{Yaw: units.Rad(yaw), Pitch: units.Rad(12)}, box)...)
	}
	var b bytes.Buffer
	var err error
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg":
		err = svg.Write(&b, page)
	case ".png":
		err = png.Write(&b, page, pxPerMM)
	default:
		err = fmt.Errorf("%s is neither .svg nor .png; name the drawing so", file)
	}
	return b.Bytes(), err
}
