package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"fmt"
	"image"
	imagedraw "image/draw"
	"image/png"

	"tasset/internal/draw"

	"github.com/jung-kurt/gofpdf"
)

// pictures counts the pictures of a document as they are first met, so that
// they stand in the file in that order.
type pictures struct{ met int }

// write places a picture. A JPEG goes into the document as it is, and whatever
// stands on several pages goes in once.
func (ps *pictures) write(doc *gofpdf.Fpdf, height float64, p *draw.Picture) error {
	format, err := p.Format()
	if err != nil {
		return err
	}
	name := fmt.Sprintf("%x", sha256.Sum256(p.Encoded))
	options := gofpdf.ImageOptions{ImageType: format, AllowNegativePosition: true}
	if doc.GetImageInfo(name) == nil {
		if err := ps.register(doc, name, options, p.Encoded); err != nil {
			return fmt.Errorf("a picture could not be put into the PDF: %w", err)
		}
	}
	doc.RawWriteStr(millimetres + string(clipTo(nil, p.Clip)))
	doc.TransformBegin()
	if p.Fade > 0 {
		doc.SetAlpha(1-min(p.Fade, 1), "Normal")
	}
	doc.Transform(gofpdf.TransformMatrix{A: p.Across.X, B: p.Across.Y, C: p.Up.X, D: p.Up.Y, E: p.At.X, F: p.At.Y})
	const point = 1 / pointsPerMM
	doc.ImageOptions(name, 0, height-point, point, point, false, options, 0, "") // on the unit square
	doc.TransformEnd()
	doc.RawWriteStr("Q")
	return doc.Error()
}

func (ps *pictures) register(doc *gofpdf.Fpdf, name string, options gofpdf.ImageOptions, encoded []byte) error {
	if options.ImageType == "png" {
		var err error
		if encoded, err = plainPNG(encoded); err != nil {
			return err
		}
	}
	info := doc.RegisterImageOptionsReader(name, options, bytes.NewReader(encoded))
	if err := doc.Error(); err != nil {
		return err
	}
	ps.met++
	return number(info, ps.met)
}

// plainPNG is the picture without what gofpdf cannot read: interlacing, more or
// less than eight bits, a palette, a transparent colour.
func plainPNG(encoded []byte) ([]byte, error) {
	const depth, kind, interlace = 24, 25, 28 // in the header (source: PNG specification, 11.2.2 IHDR)
	if len(encoded) > interlace && encoded[depth] == 8 && encoded[kind] != 3 && encoded[interlace] == 0 && !bytes.Contains(encoded, []byte("tRNS")) {
		return encoded, nil
	}
	img, err := png.Decode(bytes.NewReader(encoded))
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	plain := image.NewNRGBA(img.Bounds())
	imagedraw.Draw(plain, plain.Rect, img, plain.Rect.Min, imagedraw.Src)
	err = png.Encode(&b, plain)
	return b.Bytes(), err
}

// number gives a picture its place in the file. gofpdf puts pictures in the
// order of their widths, and those of one width in the order of a map; it writes
// only the whole part of the width, so a small fraction tells them apart.
func number(info *gofpdf.ImageInfoType, n int) error {
	raw, err := info.GobEncode()
	if err != nil {
		return err
	}
	var f fields
	d := gob.NewDecoder(bytes.NewReader(raw))
	for _, v := range f.all() {
		if err := d.Decode(v); err != nil {
			return err
		}
	}
	f.Width += float64(n) * 1e-6
	var b bytes.Buffer
	e := gob.NewEncoder(&b)
	for _, v := range f.all() {
		if err := e.Encode(v); err != nil {
			return err
		}
	}
	return info.GobDecode(b.Bytes())
}

// fields are those of gofpdf.ImageInfoType in the order in which it encodes them.
type fields struct {
	Data, Mask     []byte
	N              int
	Width, Height  float64
	Space          string
	Palette        []byte
	Bits           int
	Filter, Params string
	Transparent    []int
	Scale, DPI     float64
}

func (f *fields) all() []any {
	return []any{&f.Data, &f.Mask, &f.N, &f.Width, &f.Height, &f.Space, &f.Palette, &f.Bits, &f.Filter, &f.Params, &f.Transparent, &f.Scale, &f.DPI}
}
