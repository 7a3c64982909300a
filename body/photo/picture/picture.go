// Package picture reads photographs as phones and cameras write them: JPEG, PNG
// and WebP. A file is judged by its own first bytes and by its header, before
// anything is decoded, so that a small file cannot ask for much memory. What the
// camera noted of focal length, zoom and turning (EXIF) is read with it.
//
// HEIC is recognised and refused. The one decoder without system libraries
// took 11 s for 24 megapixels, could not read the header of a real file, and
// carries an LGPL library as a blob; phones give JPEG when asked to.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"

	"tasset/internal/report"

	"golang.org/x/image/webp"
)

// The largest files and pictures that are read: what today's phones and cameras
// write at their usual setting, with room, and what fits a small computer's
// memory when it is decoded.
const (
	MaxBytes  = 100 << 20
	MaxPixels = 60_000_000
)

// Picture is a photograph whose header has been read. Its pixels are decoded
// only when they are asked for.
type Picture struct {
	Name          string
	Width, Height int     // px, upright: turned as the camera noted
	F35           float64 // focal length as on 36 × 24 mm film by equal diagonal, mm; 0: the file does not tell, or what it tells no longer holds
	Lens          string  // camera and lens in the words of the file; "" if it does not tell
	Cut           bool    // something was cut off: the focal length that the file told no longer holds
	Resized       float64 // how many times as long as the camera noted its sides are, if it was only made smaller or larger; else 0
	src           []byte
	format        format
	turn          turn
}

// Read reads the header of a photograph and what the camera noted in it. The
// findings say what was noticed about zoom and cropping and what it does to the
// focal length. Name is what the maker calls the file.
func Read(name string, src []byte) (*Picture, []report.Finding, error) {
	if len(src) > MaxBytes {
		return nil, nil, fmt.Errorf("%s has %d MB; at most %d MB are read. Save it as a JPEG, which is smaller", name, len(src)>>20, MaxBytes>>20)
	}
	f, err := sniff(src)
	if err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	size, err := f.header(src)
	if err != nil {
		return nil, nil, fmt.Errorf("%s begins like a %s, but its header cannot be read (%w). Copy it again from the camera, or save it anew as a JPEG", name, f, err)
	}
	if px := size.Width * size.Height; px > MaxPixels || px == 0 {
		return nil, nil, fmt.Errorf("%s says that it has %d × %d pixels, %.0f megapixels; at most %d are read. Save it smaller, the whole picture and not a part of it", name, size.Width, size.Height, float64(px)/1e6, MaxPixels/1_000_000)
	}
	if f == jpegFile && scans(src) > maxScans {
		return nil, nil, fmt.Errorf("%s stores its pixels in %d passes; a camera writes at most a dozen, and more than %d are not read. Save it anew as a JPEG", name, scans(src), maxScans)
	}
	if err := f.whole(src); err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	p := &Picture{Name: name, src: src, format: f}
	findings := p.note(size)
	return p, findings, nil
}

// header is the size that a file declares.
func (f format) header(src []byte) (image.Config, error) {
	r := bytes.NewReader(src)
	switch f {
	case jpegFile:
		return jpeg.DecodeConfig(r)
	case pngFile:
		return png.DecodeConfig(r)
	default:
		return webp.DecodeConfig(r)
	}
}

func (p *Picture) decode() (image.Image, error) {
	r := bytes.NewReader(p.src)
	var img image.Image
	var err error
	switch p.format {
	case jpegFile:
		img, err = jpeg.Decode(r)
	case pngFile:
		img, err = png.Decode(r)
	default:
		img, err = webp.Decode(r)
	}
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read to its end (%w). Copy it again from the camera", p.Name, err)
	}
	if s := img.Bounds().Size(); p.turn.size(s) != (image.Point{p.Width, p.Height}) {
		return nil, fmt.Errorf("%s says in its header that it is %d × %d pixels, but it holds %d × %d. Save it anew as a JPEG", p.Name, p.Width, p.Height, s.X, s.Y)
	}
	return img, nil
}
