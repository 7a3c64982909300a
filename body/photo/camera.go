package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// Camera is a pinhole camera in the subject's axes.
type Camera struct {
	Frame  geom.Frame // subjectFromCamera: O is the lens, X right, Y down, Z along the view
	Focal  float64    // px
	Centre Pixel      // where Z meets the picture
}

// Project is where a point of the subject stands in the picture; NaN if it is
// not in front of the lens.
func (c Camera) Project(p r3.Vec) Pixel {
	l := c.Frame.Local(p)
	if l.Z <= 0 {
		return Pixel{math.NaN(), math.NaN()}
	}
	return Pixel{c.Centre.X + c.Focal*l.X/l.Z, c.Centre.Y + c.Focal*l.Y/l.Z}
}

// Ray is the unit direction, in the subject's axes, from the lens (Frame.O) to
// what stands at a place in the picture.
func (c Camera) Ray(at Pixel) r3.Vec {
	d := r3.Vec{X: (at.X - c.Centre.X) / c.Focal, Y: (at.Y - c.Centre.Y) / c.Focal, Z: 1}
	return r3.Unit(c.Frame.Dir(d))
}

// filmDiagonal is the diagonal of 36 × 24 mm film, mm. Focal lengths compare by
// it: CIPA DCG-001.
const filmDiagonal = 43.2666

// focalPx is the focal length in pixels of a picture that was not cropped.
func focalPx(f35 float64, width, height int) float64 {
	return f35 / filmDiagonal * math.Hypot(float64(width), float64(height))
}
