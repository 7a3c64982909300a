package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// skull is the cranium, an ellipsoid along the head's axes through five
// landmarks, given by their places in the figure's table. What a camera sees of
// them is its outline, not the points themselves.
type skull struct{ left, right, front, back, top int }

// has tells whether a landmark's outline is the skull's.
func (s *skull) has(landmark int) bool {
	return s != nil && (landmark == s.left || landmark == s.right || landmark == s.back || landmark == s.top)
}

// quadric is the ellipsoid: its centre and half axes.
type quadric struct{ centre, half r3.Vec }

func (s *skull) quadric(at func(landmark int) r3.Vec) quadric {
	l, r, f, b, t := at(s.left), at(s.right), at(s.front), at(s.back), at(s.top)
	c := r3.Vec{X: (l.X + r.X) / 2, Y: (l.Y + r.Y) / 2, Z: (f.Z + b.Z) / 2}
	return quadric{c, r3.Vec{X: (l.X - r.X) / 2, Y: t.Y - c.Y, Z: (f.Z - b.Z) / 2}}
}

// moves is how the quadric moves with one coordinate of a landmark.
type moves struct {
	coordinate
	centre, half r3.Vec
}

func (s *skull) moves() []moves {
	x, y, z := r3.Vec{X: .5}, r3.Vec{Y: .5}, r3.Vec{Z: .5}
	return []moves{
		{coordinate{s.left, 0, 1}, x, x}, {coordinate{s.right, 0, 1}, x, r3.Scale(-1, x)},
		{coordinate{s.left, 1, 1}, y, r3.Scale(-1, y)}, {coordinate{s.right, 1, 1}, y, r3.Scale(-1, y)},
		{coordinate{s.front, 2, 1}, z, z}, {coordinate{s.back, 2, 1}, z, r3.Scale(-1, z)},
		{coordinate{s.top, 1, 1}, r3.Vec{}, r3.Vec{Y: 1}},
	}
}

// tangent is a plane through the lens that is upright (u) or level (v) in the
// picture and touches the ellipsoid.
type tangent struct {
	at float64 // u or v in units of the focal length
	q  quadric
	p  *pose
	m  r3.Vec // the centre in the camera's axes
	l  r3.Vec // the plane's normal there: (1, 0, -u) or (0, 1, -v)
	l0 [3]float64
	f  float64 // derivative of the plane's equation by at, halved
}

// newTangent solves l·(Σ half² r r' − m m')·l = 0, which says that the plane
// touches, for the place that lies on the given side (+1 right or below). It is
// false if the camera stands inside the ellipsoid.
func newTangent(q quadric, p *pose, ax axis, side float64) (tangent, bool) {
	k := tangent{q: q, p: p, m: p.point(q.centre)}
	half := [3]float64{q.half.X, q.half.Y, q.half.Z}
	across := func(v r3.Vec) float64 { return v.X }
	if ax == vAxis {
		across = func(v r3.Vec) float64 { return v.Y }
	}
	aa, az, zz := -across(k.m)*across(k.m), -across(k.m)*k.m.Z, -k.m.Z*k.m.Z
	for i := range half {
		r := p.r.col(i)
		w := half[i] * half[i]
		aa, az, zz = aa+w*across(r)*across(r), az+w*across(r)*r.Z, zz+w*r.Z*r.Z
	}
	root := az*az - aa*zz
	if !(root > 0) || !(zz < 0) {
		return k, false
	}
	k.at = (az - side*math.Sqrt(root)) / zz
	k.f = zz*k.at - az
	k.l = r3.Vec{X: 1, Z: -k.at}
	if ax == vAxis {
		k.l = r3.Vec{Y: 1, Z: -k.at}
	}
	for i := range half {
		k.l0[i] = r3.Dot(k.l, p.r.col(i))
	}
	return k, true
}

// slope is the derivative of at when the half axes, the rotation and the centre
// (in the camera's axes) move. Implicit differentiation of the plane's equation.
func (k *tangent) slope(half r3.Vec, turn *mat3, centre r3.Vec) float64 {
	d := -2 * r3.Dot(k.l, k.m) * r3.Dot(k.l, centre)
	h, dh := [3]float64{k.q.half.X, k.q.half.Y, k.q.half.Z}, [3]float64{half.X, half.Y, half.Z}
	for i := range h {
		d += 2 * h[i] * dh[i] * k.l0[i] * k.l0[i]
		if turn != nil {
			d += 2 * h[i] * h[i] * k.l0[i] * r3.Dot(k.l, turn.col(i))
		}
	}
	return -d / (2 * k.f)
}
