// Package png paints a page as a picture, for previews.
package png

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/units"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
	"gonum.org/v1/gonum/spatial/r2"
)

// Lines are painted as they are: joining overlapping parts of a line's outline
// beforehand changes no pixel, takes long, and the library prints warnings while
// it does.
func init() { canvas.FastStroke = true }

// MaxPixels keeps a picture in memory: 100 million pixels are 400 MB.
const MaxPixels = 100e6

// Write paints a page on white with pxPerMM pixels a millimetre. It is an error
// when the picture would be empty or have more than MaxPixels.
func Write(w io.Writer, p draw.Page, pxPerMM float64) error {
	px := p.Width * p.Height * pxPerMM * pxPerMM
	if !(px >= 1 && px <= MaxPixels) {
		return fmt.Errorf("a picture of %.0f × %.0f mm at %g pixels a mm has %.0f pixels; it must be from 1 to %.0f", p.Width, p.Height, pxPerMM, px, MaxPixels)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(p.Width*pxPerMM+0.5), int(p.Height*pxPerMM+0.5)))
	ctx := canvas.NewContext(rasterizer.FromImage(img, canvas.DPMM(pxPerMM), canvas.DefaultColorSpace))
	ctx.SetFillColor(canvas.White)
	ctx.DrawPath(0, 0, canvas.Rectangle(p.Width, p.Height))
	for _, it := range p.Items {
		switch it := it.(type) {
		case *draw.Path:
			paint(ctx, it)
		case *draw.Text:
			letters(ctx, it)
		case *draw.Picture:
			if err := place(img, pxPerMM, it); err != nil {
				return err
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, plain(img)); err != nil {
		return err
	}
	const header = 33 // signature and IHDR, behind which the resolution may stand
	for _, part := range [][]byte{b.Bytes()[:header], resolution(pxPerMM), b.Bytes()[header:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// plain is a picture in greys if it has no colour: a third of the bytes.
func plain(img *image.RGBA) image.Image {
	grey := image.NewGray(img.Rect)
	for i := range grey.Pix {
		p := img.Pix[4*i : 4*i+3]
		if p[0] != p[1] || p[0] != p[2] {
			return img
		}
		grey.Pix[i] = p[0]
	}
	return grey
}

// resolution is the chunk that tells the size of a pixel, in pixels a metre, so
// that other programs open the picture at its true size (source: W3C PNG, 11.3.4.3
// and annex D).
func resolution(pxPerMM float64) []byte {
	perMetre := uint32(math.Round(1000 * pxPerMM))
	chunk := binary.BigEndian.AppendUint32([]byte("pHYs"), perMetre)
	chunk = append(binary.BigEndian.AppendUint32(chunk, perMetre), 1) // 1: metre
	out := append(binary.BigEndian.AppendUint32(nil, uint32(len(chunk)-4)), chunk...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
}

func paint(ctx *canvas.Context, p *draw.Path) {
	shape := &canvas.Path{}
	for _, sub := range p.Subpaths {
		add(shape, sub, p.Closed)
	}
	if p.Clip != nil && p.Fill != nil {
		shape = shape.And(rectangle(*p.Clip))
	}
	if p.Fill != nil {
		ctx.Style = canvas.DefaultStyle
		ctx.Style.FillRule = canvas.EvenOdd
		ctx.SetFillColor(rgba(*p.Fill))
		ctx.DrawPath(0, 0, shape)
	}
	if p.Stroke.Width > 0 {
		outline := shape
		if len(p.Stroke.Dash) > 0 {
			outline = outline.Dash(0, p.Stroke.Dash...)
		}
		outline = outline.Stroke(p.Stroke.Width, canvas.ButtCap, canvas.RoundJoin, 0.01)
		if p.Clip != nil {
			outline = outline.And(rectangle(*p.Clip))
		}
		ctx.Style = canvas.DefaultStyle
		ctx.SetFillColor(rgba(p.Stroke.Color))
		ctx.DrawPath(0, 0, outline)
	}
}

func add(shape *canvas.Path, pts []r2.Vec, closed bool) {
	for i, v := range pts {
		if i == 0 {
			shape.MoveTo(v.X, v.Y)
		} else {
			shape.LineTo(v.X, v.Y)
		}
	}
	if closed && len(pts) > 0 {
		shape.Close()
	}
}

func rectangle(r draw.Rect) *canvas.Path {
	size := r2.Sub(r.Max, r.Min)
	return canvas.Rectangle(size.X, size.Y).Translate(r.Min.X, r.Min.Y)
}

var family = sync.OnceValue(func() *canvas.FontFamily {
	f := canvas.NewFontFamily("sans")
	f.MustLoadFont(draw.FontBytes(false), 0, canvas.FontRegular)
	f.MustLoadFont(draw.FontBytes(true), 0, canvas.FontBold)
	return f
})

func letters(ctx *canvas.Context, t *draw.Text) {
	s := draw.Printable(t.S)
	if s == "" {
		return
	}
	style := canvas.FontRegular
	if t.Bold {
		style = canvas.FontBold
	}
	face := family().Face(t.Size*72/25.4, rgba(t.Color), style)
	at := t.Start()
	ctx.Push()
	ctx.Translate(at.X, at.Y)
	ctx.Rotate(units.Deg(t.Angle))
	ctx.DrawText(0, 0, canvas.NewTextLine(face, s, canvas.Left))
	ctx.Pop()
}

func rgba(c draw.Color) color.RGBA { return color.RGBA{c.R, c.G, c.B, 255} }
