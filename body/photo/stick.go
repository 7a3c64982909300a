package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A stick is a thing of known size in a view: a ruler or a scale card. Its
// unknowns are where its middle stands in the picture, a and b, in units of the
// focal length, the logarithm of its distance against the subject's, and its
// directions: of a ruler the angle in the picture and the tilt, of a card yaw,
// pitch and roll. Its size is exact; centre and directions rather than end
// points, because those would have to creep round an exact length.
type stick struct {
	at     int // its first unknown
	points []Pixel
	sd     float64 // of a point, px
	shape  []r3.Vec
	plane  r3.Vec // the middle lies in this plane of the subject's, by its normal; zero: at the subject's distance along the view
	depth  float64
	rests  []rest // of the directions
	block  int    // of its points in the rows
}

const (
	rulerSize = 5
	cardSize  = 6
)

// card tells a card from a ruler.
func (s *stick) card() bool { return len(s.points) == 4 }

// unknowns is how many unknowns a stick has.
func (s *stick) unknowns() int {
	if s.card() {
		return cardSize
	}
	return rulerSize
}

func (s *stick) rows(e *eye, x []float64) {
	u := x[s.at : s.at+s.unknowns()]
	z := e.pose.d * math.Exp(u[2])
	c := r3.Vec{X: z * u[0], Y: z * u[1], Z: z}
	s.place(e, c)
	for i, q := range s.rests {
		e.r.row((u[3+i] - q.value) / q.sd)
		e.r.term(s.at+3+i, 1/q.sd)
	}
	e.r.block(false, false)
	base := []slope{{s.at, r3.Vec{X: z}}, {s.at + 1, r3.Vec{Y: z}}, {s.at + 2, c}, {e.v.at + 3, c}}
	for i, at := range s.points {
		p, dirs := s.turned(u[3:], s.shape[i])
		slopes := base
		for k, d := range dirs {
			slopes = append(slopes, slope{s.at + 3 + k, d})
		}
		e.point(r3.Add(c, p), slopes, at, s.sd, s.sd)
	}
	s.block = e.r.block(false, true)
}

// place writes the row that holds the middle near the subject's own.
func (s *stick) place(e *eye, c r3.Vec) {
	off := r3.Sub(c, e.pose.t)
	n := r3.Vec{Z: 1}
	if s.plane != (r3.Vec{}) {
		n = e.pose.r.mul(s.plane)
	}
	e.r.row(r3.Dot(n, off) / s.depth)
	for i := range 3 {
		if s.plane != (r3.Vec{}) {
			e.r.term(e.v.at+i, r3.Dot(e.pose.slope[i].mul(s.plane), off)/s.depth)
		}
	}
	e.r.term(e.v.at+3, r3.Dot(n, off)/s.depth) // all of it grows with the distance
	e.r.term(e.v.at+4, -n.X*e.pose.d/s.depth)
	e.r.term(e.v.at+5, -n.Y*e.pose.d/s.depth)
	e.r.term(s.at, n.X*c.Z/s.depth)
	e.r.term(s.at+1, n.Y*c.Z/s.depth)
	e.r.term(s.at+2, r3.Dot(n, c)/s.depth)
}

// turned is a point of the stick in the camera's directions, with derivatives by
// the stick's own.
func (s *stick) turned(dir []float64, p r3.Vec) (r3.Vec, []r3.Vec) {
	if len(dir) == 2 {
		sa, ca := math.Sincos(dir[0])
		st, ct := math.Sincos(dir[1])
		return r3.Scale(p.X, r3.Vec{X: ct * ca, Y: ct * sa, Z: st}), []r3.Vec{
			r3.Scale(p.X, r3.Vec{X: -ct * sa, Y: ct * ca}),
			r3.Scale(p.X, r3.Vec{X: -st * ca, Y: -st * sa, Z: ct}),
		}
	}
	t := newTurns(dir[0], dir[1], dir[2])
	return t.r.mul(p), []r3.Vec{t.slope[0].mul(p), t.slope[1].mul(p), t.slope[2].mul(p)}
}
