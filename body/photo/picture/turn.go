package picture

import (
	"image"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// turn is how the stored rows and columns stand in the upright picture, as EXIF
// writes it, 1 to 8 (source: CIPA DC-008, tag Orientation); 0 is taken as 1.
type turn int

// sideways tells whether stored rows are columns of the upright picture.
func (t turn) sideways() bool { return t >= 5 && t <= 8 }

func (t turn) size(stored image.Point) image.Point {
	if t.sideways() {
		return image.Point{X: stored.Y, Y: stored.X}
	}
	return stored
}

// upright is where a place of the stored picture, parts of its width and height
// from its upper left corner, stands in the upright one, likewise.
func (t turn) upright(x, y float64) (float64, float64) {
	switch t {
	case 2:
		return 1 - x, y
	case 3:
		return 1 - x, 1 - y
	case 4:
		return x, 1 - y
	case 5:
		return y, x
	case 6:
		return 1 - y, x
	case 7:
		return 1 - y, 1 - x
	case 8:
		return y, 1 - x
	}
	return x, y
}

// apply is the picture turned upright.
func (t turn) apply(src *image.RGBA) *image.RGBA {
	if t < 2 || t > 8 {
		return src
	}
	size := t.size(src.Rect.Size())
	dst := image.NewRGBA(image.Rectangle{Max: size})
	at := func(x, y int) (int, int) { // middle of a stored pixel
		u, v := t.upright((float64(x)+0.5)/float64(src.Rect.Dx()), (float64(y)+0.5)/float64(src.Rect.Dy()))
		return int(u * float64(size.X)), int(v * float64(size.Y))
	}
	x0, y0 := at(0, 0)
	x1, y1 := at(min(1, src.Rect.Dx()-1), 0)
	step := dst.PixOffset(x1, y1) - dst.PixOffset(x0, y0)
	for y := range src.Rect.Dy() {
		row := src.Pix[y*src.Stride : y*src.Stride+4*src.Rect.Dx()]
		to := dst.PixOffset(at(0, y))
		for i := 0; i < len(row); i += 4 {
			copy(dst.Pix[to:to+4], row[i:i+4])
			to += step
		}
	}
	return dst
}

// placed is the stored picture on a page so that it stands upright in a
// rectangle.
func (t turn) placed(stored []byte, r draw.Rect) *draw.Picture {
	size := r2.Sub(r.Max, r.Min)
	at := func(x, y float64) r2.Vec {
		u, v := t.upright(x, y)
		return r2.Vec{X: r.Min.X + u*size.X, Y: r.Max.Y - v*size.Y}
	}
	corner := at(0, 1)
	return &draw.Picture{Encoded: stored, At: corner, Across: r2.Sub(at(1, 1), corner), Up: r2.Sub(at(0, 0), corner)}
}
