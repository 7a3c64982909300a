package photo

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/units"
)

// Sight is a solved photograph to measure over: how its camera saw the subject,
// and how well lengths in it are known.
type Sight struct {
	Picture       string // "photos/body-front.jpg"
	Width, Height int    // px
	Camera        Camera
	ScaleSD       float64 // of lengths at the subject's middle, as a share of them
	DistanceSD    float64 // of the way from the lens to the subject, as a share of it
}

// Sight is a solved shot to measure over.
func (s *Subject) Sight(shot int) Sight {
	v, q := s.model.views[shot], s.Shots[shot]
	d, sd := s.Distance(shot)
	c := s.best.cov
	scale := c.At(v.at+3, v.at+3) + c.At(v.lens, v.lens) - 2*c.At(v.at+3, v.lens) // variance of log(d / focal)
	return Sight{Picture: q.Name, Width: q.Width, Height: q.Height, Camera: s.Cameras[shot],
		ScaleSD: math.Sqrt(max(scale, 0)), DistanceSD: sd / d}
}

// Depth is how far something stands in front of the subject's middle, towards
// the camera; a negative one is behind it.
type Depth struct {
	Value float64 // mm
	SD    float64 // mm; 0: usual, usualDepthSD
}

// What is not known about a thing in a picture, as standard deviations. All
// judgement; the prototype's figures for a prop rest on the first two.
const (
	usualDepthSD = 30.0                   // mm: how well a maker can say how far in front a thing is held
	tiltSD       = 5 * math.Pi / 180      // how far a thing leans out of the plane that it is measured in
	endSD        = 2.0                    // mm at the subject: an end that is marked over a picture of it
	tiltShare    = .866 * tiltSD * tiltSD // RMS of 1 − cos(tilt), √3/2·σ² for small tilts
)

func (d Depth) sd() float64 {
	if d.SD == 0 {
		return usualDepthSD
	}
	return d.SD
}

// towards is the level direction from the subject to the camera, square to the
// picture.
func (s Sight) towards() r3.Vec {
	z := s.Camera.Frame.Z
	return r3.Unit(r3.Vec{X: -z.X, Z: -z.Z})
}

// Distance is the level way from the lens to the upright plane through the
// subject's axis, mm.
func (s Sight) Distance() float64 { return r3.Dot(s.towards(), s.Camera.Frame.O) }

// Place is the point, in the subject's axes, that is seen at a place of the
// picture in the upright plane that stands square to the view at a depth.
func (s Sight) Place(at Pixel, depth float64) (r3.Vec, error) {
	if err := inPicture(at, s.Width, s.Height, s.Picture); err != nil {
		return r3.Vec{}, err
	}
	way := s.Distance() - depth
	if !(way > nearest) {
		return r3.Vec{}, fmt.Errorf("a depth of %s is out of the picture: the camera stands %s from the wearer",
			units.Format(depth, units.MM), units.Format(s.Distance(), units.MM))
	}
	ray := s.Camera.Ray(at)
	along := -r3.Dot(s.towards(), ray)
	if !(along > leastSlope) {
		return r3.Vec{}, fmt.Errorf("nothing that stands %s in front can be seen at %s of %s", units.Format(depth, units.MM), at, s.Picture)
	}
	return r3.Add(s.Camera.Frame.O, r3.Scale(way/along, ray)), nil
}

// A camera sees nothing nearer than this, and no plane at a flatter slope.
const (
	nearest    = 50   // mm
	leastSlope = 0.05 // sine
)

// share is the deviation of lengths at a depth, as a share of them: the scale,
// the depth, the distance as far as the depth brings it in, and a lean out of
// the plane.
func (s Sight) share(d Depth) float64 {
	way := s.Distance() - d.Value
	return norm(s.ScaleSD, d.sd()/way, d.Value/way*s.DistanceSD, tiltShare)
}

// norm is the root of the sum of squares.
func norm(v ...float64) float64 {
	var sum float64
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// String is the place as makers write it.
func (p Pixel) String() string { return fmt.Sprintf("[%.0f, %.0f]", p.X, p.Y) }

// inPicture refuses a place outside a picture; a picture without a size takes
// every place.
func inPicture(p Pixel, width, height int, name string) error {
	if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
		return fmt.Errorf("%s is no place in %s", p, name)
	}
	if width > 0 && (p.X < 0 || p.Y < 0 || p.X > float64(width) || p.Y > float64(height)) {
		return fmt.Errorf("%s lies outside %s, which is %d pixels wide and %d high", p, name, width, height)
	}
	return nil
}
