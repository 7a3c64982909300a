package photo

import (
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// HeadFrame is a level head's frame (parentFromHead), by four of its landmarks:
// the origin midway between the tragions, x to the wearer's left through them,
// and the outer eye corners as far above the tragions as on surveyed people,
// who looked straight ahead (13° up from ear to eye). Heights on a head, such as
// chin to crown, are along its y; a head tilted by 1° more changes chin to crown
// by about 1.5 mm.
func HeadFrame(leftTragion, rightTragion, leftEye, rightEye r3.Vec) geom.Frame {
	o, eye := geom.Lerp(leftTragion, rightTragion, .5), geom.Lerp(leftEye, rightEye, .5)
	x := r3.Unit(r3.Sub(leftTragion, rightTragion))
	to := r3.Sub(eye, o)
	forward := r3.Unit(r3.Sub(to, r3.Scale(r3.Dot(to, x), x))) // from ear to eye
	up := r3.Cross(forward, x)
	z := r3.Unit(r3.Sub(forward, r3.Scale(earEye, up)))
	return geom.Frame{O: o, X: x, Y: r3.Cross(z, x), Z: z}
}
