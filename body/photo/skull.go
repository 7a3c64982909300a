package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// skull is the cranium, a superellipsoid along the head's axes through five
// landmarks, given by their places in the figure's table. What a camera sees of
// them is its outline, not the points themselves.
type skull struct{ left, right, front, back, top int }

// skullExponent is the cranium's exponent, between its profile's (2.17 for men
// and 2.29 for women by the coronal arcs of the 2003 head survey, as in the body
// form) and its level section's (2.34, whose girth is 1.029 times the ellipse's,
// that of the men of the 2012 US Army survey). An ellipsoid would take heads that
// are turned by 6° as 2 mm too broad.
const skullExponent = 2.25

// dual is the exponent of the support function: 1/dual + 1/skullExponent = 1.
const dual = skullExponent / (skullExponent - 1)

// has tells whether a landmark's outline is the skull's.
func (s *skull) has(landmark int) bool {
	return s != nil && (landmark == s.left || landmark == s.right || landmark == s.back || landmark == s.top)
}

// cranium is a skull's centre and half axes.
type cranium struct{ centre, half r3.Vec }

func (s *skull) cranium(at func(landmark int) r3.Vec) cranium {
	l, r, f, b, t := at(s.left), at(s.right), at(s.front), at(s.back), at(s.top)
	c := r3.Vec{X: (l.X + r.X) / 2, Y: (l.Y + r.Y) / 2, Z: (f.Z + b.Z) / 2}
	return cranium{c, r3.Vec{X: (l.X - r.X) / 2, Y: t.Y - c.Y, Z: (f.Z - b.Z) / 2}}
}

// moves is how the cranium moves with one coordinate of a landmark.
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

// reach is how far the cranium reaches from its centre in a direction w, times
// the length of w (its support function), with the derivatives by w, which are
// the place of the surface that it touches, and by the half axes.
func (q cranium) reach(w r3.Vec) (h float64, touch, byHalf r3.Vec) {
	a, v := [3]float64{q.half.X, q.half.Y, q.half.Z}, [3]float64{w.X, w.Y, w.Z}
	var sum float64
	for i := range a {
		sum += math.Pow(math.Abs(a[i]*v[i]), dual)
	}
	h = math.Pow(sum, 1/dual)
	var t, b [3]float64
	for i := range a {
		g := math.Copysign(math.Pow(math.Abs(a[i]*v[i])/h, dual-1), a[i]*v[i])
		t[i], b[i] = g*a[i], g*v[i]
	}
	return h, r3.Vec{X: t[0], Y: t[1], Z: t[2]}, r3.Vec{X: b[0], Y: b[1], Z: b[2]}
}

// tangent is a plane through the lens that is upright (u) or level (v) in the
// picture and touches the cranium. With its normal l = (1, 0, -at) or (0, 1,
// -at) and the cranium's centre m, both in the camera's axes, it touches where
// reach(R'l) = -side·l·m.
type tangent struct {
	at     float64 // u or v in units of the focal length
	side   float64 // +1: the touching place is right of the centre, or below
	l      r3.Vec
	touch  r3.Vec // from the centre, in the head's axes
	byHalf r3.Vec
	turn   float64 // derivative of the equation by at
}

// newTangent finds the plane by Newton's method from the centre's place. It is
// false if the camera stands inside the cranium.
func newTangent(q cranium, p *pose, ax axis, side float64) (tangent, bool) {
	k := tangent{side: side, l: r3.Vec{X: 1}}
	m := p.point(q.centre)
	k.at = m.X / m.Z
	if ax == vAxis {
		k.l, k.at = r3.Vec{Y: 1}, m.Y/m.Z
	}
	if !(m.Z > 0) {
		return k, false
	}
	back := mat3{p.r.col(0), p.r.col(1), p.r.col(2)}
	for last, i := false, 0; i < 20; i++ {
		k.l.Z = -k.at
		var h float64
		h, k.touch, k.byHalf = q.reach(back.mul(k.l))
		k.turn = -(p.r.mul(k.touch).Z + side*m.Z)
		if last {
			return k, true
		}
		step := (h + side*r3.Dot(k.l, m)) / k.turn
		k.at -= step
		last = math.Abs(step) < 1e-8 // its square is nothing
	}
	return k, false
}

// slope is the derivative of at when the half axes, the rotation and the centre
// (in the camera's axes) move. Implicit differentiation.
func (k *tangent) slope(half r3.Vec, turn *mat3, centre r3.Vec) float64 {
	d := r3.Dot(k.byHalf, half) + k.side*r3.Dot(k.l, centre)
	if turn != nil {
		d += r3.Dot(k.l, turn.mul(k.touch))
	}
	return -d / k.turn
}
