package png

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // pictures are JPEG or PNG files
	"math"

	"tasset/internal/draw"

	imagedraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"
)

// place paints a picture, smoothed to the pixels of the page.
func place(page *image.RGBA, pxPerMM float64, p *draw.Picture) error {
	if _, err := p.Format(); err != nil {
		return err
	}
	src, _, err := image.Decode(bytes.NewReader(p.Encoded))
	if err != nil {
		return fmt.Errorf("a picture on the page cannot be read: %w", err)
	}
	size, height := src.Bounds().Size(), float64(page.Rect.Dy())
	w, h := pxPerMM/float64(size.X), pxPerMM/float64(size.Y)
	top := f64.Vec2{pxPerMM * (p.At.X + p.Up.X), height - pxPerMM*(p.At.Y+p.Up.Y)}
	m := f64.Aff3{
		p.Across.X * w, -p.Up.X * h, top[0],
		-p.Across.Y * w, p.Up.Y * h, top[1],
	}
	var options *imagedraw.Options
	if p.Fade > 0 {
		see := image.NewUniform(color.Alpha16{uint16(0xffff * (1 - min(p.Fade, 1)))})
		options = &imagedraw.Options{DstMask: see}
	}
	// Enlarged, pixels are only to be joined; made smaller, all of them must count.
	var by imagedraw.Transformer = imagedraw.CatmullRom
	if min(math.Hypot(m[0], m[3]), math.Hypot(m[1], m[4])) >= 1 {
		by = imagedraw.ApproxBiLinear
	}
	by.Transform(page.SubImage(window(page, pxPerMM, p.Clip)).(*image.RGBA), m, src, src.Bounds(), imagedraw.Over, options)
	return nil
}

// window is the part of the page that a clip lets show, to the nearest pixel.
func window(page *image.RGBA, pxPerMM float64, clip *draw.Rect) image.Rectangle {
	if clip == nil {
		return page.Rect
	}
	px := func(mm float64) int { return int(math.Round(mm * pxPerMM)) }
	height := page.Rect.Dy()
	return image.Rect(px(clip.Min.X), height-px(clip.Max.Y), px(clip.Max.X), height-px(clip.Min.Y)).Intersect(page.Rect)
}
