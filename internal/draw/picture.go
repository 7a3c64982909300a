package draw

import (
	"bytes"
	"errors"

	"gonum.org/v1/gonum/spatial/r2"
)

// Picture is a photograph on the page. Its sides may stand at any angle, so that
// a picture can be turned, mirrored or stretched without being painted anew.
type Picture struct {
	Encoded    []byte  // a JPEG or PNG file; its pixels stand as they are stored, whatever its EXIF says
	At         r2.Vec  // where its lower left corner stands
	Across, Up r2.Vec  // its lower side and its left side, mm
	Fade       float64 // 0: opaque; 1: not to be seen
	Clip       *Rect   // nil: not clipped
	Layer      string
}

func (*Picture) item() {}

// Placed is a picture that fills an upright rectangle.
func Placed(encoded []byte, r Rect) *Picture {
	size := r2.Sub(r.Max, r.Min)
	return &Picture{Encoded: encoded, At: r.Min, Across: r2.Vec{X: size.X}, Up: r2.Vec{Y: size.Y}}
}

// Format is "jpeg" or "png", by how the file begins.
func (p *Picture) Format() (string, error) {
	switch {
	case bytes.HasPrefix(p.Encoded, []byte("\xff\xd8\xff")):
		return "jpeg", nil
	case bytes.HasPrefix(p.Encoded, []byte("\x89PNG\r\n\x1a\n")):
		return "png", nil
	}
	return "", errors.New("a picture on a page must be a JPEG or PNG file, and this is neither")
}
