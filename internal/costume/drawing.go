package costume

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/draw/png"
	"tasset/internal/draw/svg"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The drawing of a piece: two views side by side, mm.
const (
	viewWidth, viewHeight = 90.0, 110.0
	pxPerMM               = 8
)

// Drawing draws a piece as it is worn, from the front and from the side: SVG or
// PNG by the file's ending.
func (r *Result) Drawing(p *pattern.Piece, file string) ([]byte, error) {
	page := draw.Page{Width: 2*viewWidth + 10, Height: viewHeight, Title: p.Title}
	scene := r.scene(p)
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

// scene is the piece with its seams, and the part of the body under it.
func (r *Result) scene(p *pattern.Piece) view.Scene {
	var s view.Scene
	for _, panel := range p.Panels {
		m := geom.Mesh{V: worn(p, panel.Surface.Bent), T: panel.Surface.T}
		s.Faces = append(s.Faces, view.Face{Mesh: m, Silhouette: view.Outline})
		s.Focus = append(s.Focus, m.V...)
	}
	for _, seam := range p.Seams {
		s.Lines = append(s.Lines, view.Line{Points: worn(p, seam.Line), Weight: view.Seam})
	}
	if part, ok := r.Form.Part(p.Segment, p.Side); ok {
		m := part.Mesh()
		for i, v := range m.V {
			m.V[i] = part.Frame.Point(v)
		}
		s.Faces = append(s.Faces, view.Face{Mesh: m, Silhouette: view.Ghost})
	}
	return s
}

// worn moves points of a piece to where they are on the body.
func worn(p *pattern.Piece, pts []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(pts))
	for i, v := range pts {
		out[i] = p.Frame.Point(v)
	}
	return out
}
