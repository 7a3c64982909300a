package pattern

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// eye is where a piece is seen from, in piece axes: from infinitely far, as the
// views of a template are; from a lens; or from a place within the piece, all
// round.
type eye struct {
	kind      eyeKind
	at        r3.Vec // unless far
	right, up r3.Vec // as the viewer sees them, and
	toward    r3.Vec // pointing at the viewer; unused within
	depth     float64
}

type eyeKind int

const (
	far    eyeKind = iota
	lens           // its picture is the plane at depth in front of it
	within         // its picture is angle and slope, all round the upright through it
)

// eyeFrom gives the eye of a view's name in the template language, and whether
// the language's x runs to the viewer's left there.
func eyeFrom(name string) (e eye, xToLeft bool) {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	neg := func(a r3.Vec) r3.Vec { return r3.Scale(-1, a) }
	switch name {
	case "back":
		return eye{right: neg(x), up: y, toward: neg(z)}, true
	case "left", "outer":
		return eye{right: neg(z), up: y, toward: x}, true
	case "right", "inner":
		return eye{right: z, up: y, toward: neg(x)}, false
	case "top":
		return eye{right: neg(x), up: z, toward: y}, true
	case "bottom":
		return eye{right: x, up: z, toward: neg(y)}, false
	default: // front
		return eye{right: x, up: y, toward: z}, false
	}
}

// ray is the direction in which the eye looks at a place.
func (e eye) ray(p r3.Vec) r3.Vec {
	if e.kind == far {
		return r3.Scale(-1, e.toward)
	}
	return r3.Sub(p, e.at)
}

// leastFacing (rounding): the sine of the angle under which a triangle must be
// seen at least for its picture to be one.
const leastFacing = 1e-6

// faces tells whether the eye sees the right side of a triangle with a normal at
// a place: the outer side, or from within the inner one.
func (e eye) faces(p, normal r3.Vec) bool {
	if e.kind == far {
		return r3.Dot(e.toward, normal) >= leastFacing
	}
	ray := e.ray(p)
	d := -r3.Dot(ray, normal) / math.Sqrt(r3.Norm2(ray))
	if e.kind == within {
		d = -d
	}
	return d >= leastFacing
}

// see is where a place stands in the picture of an eye that is not within.
func (e eye) see(p r3.Vec) r2.Vec {
	if e.kind == far {
		return r2.Vec{X: r3.Dot(p, e.right), Y: r3.Dot(p, e.up)}
	}
	v := r3.Sub(p, e.at)
	k := -e.depth / r3.Dot(v, e.toward)
	return r2.Vec{X: k * r3.Dot(v, e.right), Y: k * r3.Dot(v, e.up)}
}

// sees is where a place stands in the picture; from within it stands there
// several times, a turn apart.
func (e eye) sees(p r3.Vec) []r2.Vec {
	if e.kind != within {
		return []r2.Vec{e.see(p)}
	}
	q := e.round(p)
	return []r2.Vec{{X: q.X - 2*math.Pi, Y: q.Y}, q, {X: q.X + 2*math.Pi, Y: q.Y}}
}

// round is a place's angle from forward round the upright through the eye, and
// the slope at which it is seen.
func (e eye) round(p r3.Vec) r2.Vec {
	v := r3.Sub(p, e.at)
	return r2.Vec{X: math.Atan2(v.X, v.Z), Y: v.Y / math.Hypot(v.X, v.Z)}
}

// target is a place that stands at a place of the picture of an eye that is not
// within.
func (e eye) target(q r2.Vec) r3.Vec {
	p := r3.Add(r3.Scale(q.X, e.right), r3.Scale(q.Y, e.up))
	if e.kind == far {
		return p
	}
	return r3.Add(r3.Add(e.at, p), r3.Scale(-e.depth, e.toward))
}

// reflected is the eye's mirror image about the piece's x = 0 plane, with its
// right turned so that the viewer's right stays right.
func (e eye) reflected() eye {
	e.at, e.up, e.toward = mirrorX(e.at), mirrorX(e.up), mirrorX(e.toward)
	e.right = r3.Scale(-1, mirrorX(e.right))
	return e
}

func mirrorX(p r3.Vec) r3.Vec { return r3.Vec{X: -p.X, Y: p.Y, Z: p.Z} }
