// Package sheet draws what makers print of photographs: the picture with its
// marks to check them by, the scale card, a guide to shooting, and reference
// sheets at true scale to draw on. It takes what is solved and gives pages; it
// writes no file.
package sheet

import (
	"fmt"
	"math"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"

	"gonum.org/v1/gonum/spatial/r2"
)

// Paper is what sheets are printed on, upright. Across and Down make up for a
// printer that is a little off: by how much of its length an axis is stretched.
type Paper struct {
	Name          string  // "A4"
	Width, Height float64 // mm
	Across, Down  float64 // 0.01 is 1 %
}

// blank is an empty page of the paper.
func (p Paper) blank(title string) draw.Page {
	return draw.Page{Width: p.Width, Height: p.Height, Title: title}
}

// framed puts bars and what the page says of itself round a page, and makes up
// for the printer.
func (p Paper) framed(page draw.Page, title []string, says ...string) draw.Page {
	title = append(title, p.Name)
	says = append([]string{leaf.Corrected(p.Across, p.Down)}, says...)
	page.Items = append(page.Items, leaf.Frame(p.Width-leaf.Margin, title, says)...)
	return page.Stretched(p.Across, p.Down)
}

// fits says whether a drawing has room on the paper.
func (p Paper) fits(what string, width, height float64) error {
	if p.Width >= width && p.Height >= height {
		return nil
	}
	return fmt.Errorf("%s needs paper of at least %.0f × %.0f mm; %s is %.0f × %.0f mm", what, width, height, p.Name, p.Width, p.Height)
}

// How lines and words look. Lines over a photograph have a light line under
// them, so that they show on dark and on light.
var (
	black = draw.Color{}
	white = draw.Color{R: 255, G: 255, B: 255}
	grey  = draw.Color{R: 105, G: 105, B: 105}
	pale  = draw.Color{R: 205, G: 205, B: 205}
	blue  = draw.Color{R: 0, G: 84, B: 150}
	alarm = draw.Color{R: 190, G: 20, B: 30}
)

func line(width float64, c draw.Color, pts ...r2.Vec) *draw.Path {
	return &draw.Path{Subpaths: [][]r2.Vec{pts}, Stroke: draw.Style{Width: width, Color: c}, Layer: "mark"}
}

// onPhoto is a line with a light one under it.
func onPhoto(width float64, c draw.Color, pts ...r2.Vec) []draw.Item {
	return []draw.Item{line(width+0.5, white, pts...), line(width, c, pts...)}
}

func filled(c draw.Color, pts ...r2.Vec) *draw.Path {
	return &draw.Path{Subpaths: [][]r2.Vec{pts}, Closed: true, Fill: &c, Layer: "mark"}
}

// arc is part of a circle, from one angle to another, rad.
func arc(c r2.Vec, radius, from, to float64) []r2.Vec {
	n := max(2, int(math.Ceil(math.Abs(to-from)/(math.Pi/24))))
	pts := make([]r2.Vec, n+1)
	for i := range pts {
		s, co := math.Sincos(from + (to-from)*float64(i)/float64(n))
		pts[i] = r2.Add(c, r2.Vec{X: radius * co, Y: radius * s})
	}
	return pts
}

func text(at r2.Vec, size float64, align draw.Align, c draw.Color, s string) *draw.Text {
	return &draw.Text{At: at, Size: size, Align: align, Color: c, S: s, Layer: "text"}
}

func at(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
