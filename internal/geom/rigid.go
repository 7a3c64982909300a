package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Rigid is a motion of the plane without reflection: a turn about the origin
// by the angle whose cosine and sine are C and S, then a shift.
type Rigid struct {
	C, S  float64
	Shift r2.Vec
}

// Turned is the motion that turns by an angle about the origin, then shifts.
func Turned(angle float64, shift r2.Vec) Rigid {
	s, c := math.Sincos(angle)
	return Rigid{C: c, S: s, Shift: shift}
}

// Apply moves a point.
func (m Rigid) Apply(p r2.Vec) r2.Vec { return r2.Add(m.Dir(p), m.Shift) }

// Dir turns a direction.
func (m Rigid) Dir(d r2.Vec) r2.Vec {
	return r2.Vec{X: m.C*d.X - m.S*d.Y, Y: m.S*d.X + m.C*d.Y}
}

// ApplyAll moves points, into a new slice.
func (m Rigid) ApplyAll(pts []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}

// Then is the motion that does m first and next after it.
func (m Rigid) Then(next Rigid) Rigid {
	return Rigid{
		C:     next.C*m.C - next.S*m.S,
		S:     next.S*m.C + next.C*m.S,
		Shift: next.Apply(m.Shift),
	}
}

// Inverse is the motion back.
func (m Rigid) Inverse() Rigid {
	back := Rigid{C: m.C, S: -m.S}
	back.Shift = r2.Scale(-1, back.Dir(m.Shift))
	return back
}

// Angle is the angle of the turn, in (-π, π].
func (m Rigid) Angle() float64 { return math.Atan2(m.S, m.C) }

// FitRigid is the motion that brings points nearest to their partners, by the
// sum of squares, and the root mean square of what is left. Source: Kabsch,
// Acta Cryst. A32 (1976), in the plane, where it has a closed form.
func FitRigid(from, to []r2.Vec) (m Rigid, rms float64) {
	a, b := mean(from), mean(to)
	var dot, cross float64
	for i := range from {
		p, q := r2.Sub(from[i], a), r2.Sub(to[i], b)
		dot += r2.Dot(p, q)
		cross += r2.Cross(p, q)
	}
	m = Turned(math.Atan2(cross, dot), r2.Vec{})
	m.Shift = r2.Sub(b, m.Dir(a))
	var sum float64
	for i := range from {
		sum += r2.Norm2(r2.Sub(m.Apply(from[i]), to[i]))
	}
	return m, math.Sqrt(sum / float64(len(from)))
}

func mean(pts []r2.Vec) r2.Vec {
	var c r2.Vec
	for _, p := range pts {
		c = r2.Add(c, p)
	}
	return r2.Scale(1/float64(len(pts)), c)
}
