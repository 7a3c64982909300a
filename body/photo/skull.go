package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// skull is the cranium, a superellipsoid along the head's axes through five
// landmarks, given by their places in the figure's table. What a camera sees of
// them is its outline, not the points themselves.
type skull struct{ left, right, front, back, top int }

// Exponents of the cranium: of its level sections, between 2.1 to 2.3 on four
// meshes of bare bodies and the 2.34 that makes the head girth of the 2012 US
// Army survey's men, whose hair is in it; of its upright profiles, between 2.17
// (men) and 2.29 (women) by the coronal arcs of the 2003 head survey, as in the
// body form. An ellipsoid would take heads that are turned by 6° as 2 mm too
// broad.
const (
	levelExponent   = 2.3
	profileExponent = 2.23
)

// The support function of nested superellipses is made of the dual exponents.
const (
	levelDual   = levelExponent / (levelExponent - 1)
	profileDual = profileExponent / (profileExponent - 1)
)

// has tells whether a landmark's outline is the skull's.
func (s *skull) has(landmark int) bool {
	return s != nil && (landmark == s.left || landmark == s.right || landmark == s.back || landmark == s.top)
}

// cranium is the skull as it is near one of its landmarks: its half axes (that
// backwards apart, because skulls are eggs), and the centre that puts the
// landmark at the end of its axis: skulls are widest, longest and highest at
// different places.
type cranium struct {
	centre, half r3.Vec
	back         float64
}

// moves is how a cranium moves with one coordinate of a landmark.
type moves struct {
	landmark, axis int
	cranium
}

// cranium is the skull near a landmark, and how it moves with all landmarks. Its
// front and its back meet where skulls are widest as a rule: where this one is, no
// view shows.
func (s *skull) cranium(landmark int, at func(landmark int) r3.Vec) (cranium, []moves) {
	half := func(x, y, z, back float64) cranium { return cranium{half: r3.Vec{X: x, Y: y, Z: z}, back: back} }
	m := []moves{
		{s.left, 0, half(.5, 0, 0, 0)}, {s.right, 0, half(-.5, 0, 0, 0)},
		{s.top, 1, half(0, 1, 0, 0)}, {s.left, 1, half(0, -.5, 0, 0)}, {s.right, 1, half(0, -.5, 0, 0)},
		{s.front, 2, half(0, 0, 1, 0)}, {s.back, 2, half(0, 0, 0, -1)},
	}
	for i, v := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		m = adding(m, moves{landmark, i, cranium{centre: v}})
	}
	end := map[int]r3.Vec{s.left: {X: 1}, s.right: {X: -1}, s.back: {Z: -1}, s.top: {Y: 1}}[landmark]
	q := half(0, 0, -widest, widest) // the rest is linear in the landmarks
	q.centre = r3.Vec{Z: -end.Z * widest}
	for i := range m {
		d := &m[i].cranium
		d.centre = r3.Sub(d.centre, r3.Vec{X: end.X * d.half.X, Y: end.Y * d.half.Y, Z: end.Z * d.back})
		p := at(m[i].landmark)
		k := [3]float64{p.X, p.Y, p.Z}[m[i].axis]
		q = cranium{r3.Add(q.centre, r3.Scale(k, d.centre)), r3.Add(q.half, r3.Scale(k, d.half)), q.back + k*d.back}
	}
	return q, m
}

// adding adds a move to the one of the same coordinate, if there is one.
func adding(all []moves, m moves) []moves {
	for i := range all {
		if all[i].landmark == m.landmark && all[i].axis == m.axis {
			all[i].centre = r3.Add(all[i].centre, m.centre)
			return all
		}
	}
	return append(all, m)
}

// reach is how far the cranium reaches from its centre in a direction w, times
// the length of w (its support function), with the derivatives by w, which are
// the place of the surface that it touches, and by the half axes.
func (q cranium) reach(w r3.Vec) (h float64, touch r3.Vec, byHalf cranium) {
	long := q.half.Z
	if w.Z < 0 {
		long = q.back
	}
	level, dx, dz := hypot(q.half.X*w.X, long*w.Z, levelDual)
	h, dl, dy := hypot(level, q.half.Y*w.Y, profileDual)
	dx, dz = dl*dx, dl*dz
	byHalf.half = r3.Vec{X: dx * w.X, Y: dy * w.Y, Z: dz * w.Z}
	if w.Z < 0 {
		byHalf.half.Z, byHalf.back = 0, dz*w.Z
	}
	return h, r3.Vec{X: dx * q.half.X, Y: dy * q.half.Y, Z: dz * long}, byHalf
}

// hypot is (|a|ⁿ + |b|ⁿ)^(1/n) with its derivatives.
func hypot(a, b, n float64) (h, da, db float64) {
	h = math.Pow(math.Pow(math.Abs(a), n)+math.Pow(math.Abs(b), n), 1/n)
	return h, math.Copysign(math.Pow(math.Abs(a)/h, n-1), a), math.Copysign(math.Pow(math.Abs(b)/h, n-1), b)
}

// tangent is a plane through the lens that is upright (u) or level (v) in the
// picture and touches the cranium. With its normal l = (1, 0, -at) or (0, 1,
// -at) and the cranium's centre m, both in the camera's axes, it touches where
// reach(side·R'l) = -side·l·m.
type tangent struct {
	at     float64 // u or v in units of the focal length
	side   float64 // +1: the touching place is right of the centre, or below
	l      r3.Vec
	touch  r3.Vec // from the centre, in the head's axes
	byHalf cranium
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
		h, k.touch, k.byHalf = q.reach(r3.Scale(side, back.mul(k.l)))
		k.turn = -side * (p.r.mul(k.touch).Z + m.Z)
		if last {
			return k, true
		}
		step := (h + side*r3.Dot(k.l, m)) / k.turn
		k.at -= step
		last = math.Abs(step) < 1e-8 // its square is nothing
	}
	return k, false
}

// slope is the derivative of at when the half axes of d, the rotation and the
// centre (in the camera's axes) move. Implicit differentiation.
func (k *tangent) slope(d cranium, turn *mat3, centre r3.Vec) float64 {
	by := r3.Dot(k.byHalf.half, d.half) + k.byHalf.back*d.back + k.side*r3.Dot(k.l, centre)
	if turn != nil {
		by += k.side * r3.Dot(k.l, turn.mul(k.touch))
	}
	return -by / k.turn
}
