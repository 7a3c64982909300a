package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// mat3 is a matrix by rows.
type mat3 [3]r3.Vec

func (m mat3) mul(v r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(m[0], v), Y: r3.Dot(m[1], v), Z: r3.Dot(m[2], v)}
}

func (m mat3) col(i int) r3.Vec {
	c := func(v r3.Vec) float64 { return [3]float64{v.X, v.Y, v.Z}[i] }
	return r3.Vec{X: c(m[0]), Y: c(m[1]), Z: c(m[2])}
}

func (m mat3) times(o mat3) mat3 {
	a, b, c := m.mul(o.col(0)), m.mul(o.col(1)), m.mul(o.col(2))
	return mat3{{X: a.X, Y: b.X, Z: c.X}, {X: a.Y, Y: b.Y, Z: c.Y}, {X: a.Z, Y: b.Z, Z: c.Z}}
}

// A pose has six unknowns: three turns, the logarithm of the distance D along
// the view, and where the subject's origin stands in the picture, a and b, in
// units of the focal length. The origin is at t = D·(a, b, 1), which keeps the
// place in the picture apart from the distance.
const poseSize = 6

// turns is a rotation and its derivatives by yaw, pitch and roll:
// camFromSubject = Rz(roll) Rx(pitch) diag(1, -1, -1) Ry(yaw), so that at rest
// the subject faces the camera.
type turns struct {
	r     mat3
	slope [3]mat3
}

func newTurns(yaw, pitch, roll float64) turns {
	sy, cy := math.Sincos(yaw)
	sp, cp := math.Sincos(pitch)
	sr, cr := math.Sincos(roll)
	y, dy := mat3{{X: cy, Z: sy}, {Y: 1}, {X: -sy, Z: cy}}, mat3{{X: -sy, Z: cy}, {}, {X: -cy, Z: -sy}}
	// Rx(pitch) with the two axes of diag(1, -1, -1) turned over
	p, dp := mat3{{X: 1}, {Y: -cp, Z: sp}, {Y: -sp, Z: -cp}}, mat3{{}, {Y: sp, Z: cp}, {Y: -cp, Z: sp}}
	z, dz := mat3{{X: cr, Y: -sr}, {X: sr, Y: cr}, {Z: 1}}, mat3{{X: -sr, Y: -cr}, {X: cr, Y: -sr}, {}}
	py := p.times(y)
	return turns{z.times(py), [3]mat3{z.times(p.times(dy)), z.times(dp.times(y)), dz.times(py)}}
}

// pose is where a subject stands before a camera.
type pose struct {
	turns
	d, a, b float64
	t       r3.Vec
}

func newPose(x []float64) pose {
	d := math.Exp(x[3])
	return pose{newTurns(x[0], x[1], x[2]), d, x[4], x[5], r3.Vec{X: d * x[4], Y: d * x[5], Z: d}}
}

// point is a point of the subject in the camera's axes.
func (p *pose) point(v r3.Vec) r3.Vec { return r3.Add(p.r.mul(v), p.t) }

// slopes are the derivatives of point by the pose's unknowns.
func (p *pose) slopes(v r3.Vec) [poseSize]r3.Vec {
	return [poseSize]r3.Vec{p.slope[0].mul(v), p.slope[1].mul(v), p.slope[2].mul(v), p.t, {X: p.d}, {Y: p.d}}
}

// frame is the camera's frame in the subject's axes.
func (p *pose) frame() geom.Frame {
	back := mat3{p.r.col(0), p.r.col(1), p.r.col(2)}
	return geom.Frame{O: r3.Scale(-1, back.mul(p.t)), X: p.r[0], Y: p.r[1], Z: p.r[2]}
}
