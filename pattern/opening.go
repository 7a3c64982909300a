package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// cutout is an opening as it is seen from one side of the piece: a closed
// curve, counter-clockwise for who looks from there.
type cutout struct {
	name  string
	view  view
	curve []r2.Vec
}

// view looks at a piece along an axis: right and up as the viewer sees them,
// toward pointing at the viewer, all in piece axes.
type view struct{ right, up, toward r3.Vec }

// viewFrom gives the view of a name in the template language, and whether the
// language's x runs to the viewer's left there.
func viewFrom(name string) (v view, xToLeft bool) {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	neg := func(a r3.Vec) r3.Vec { return r3.Scale(-1, a) }
	switch name {
	case "back":
		return view{neg(x), y, neg(z)}, true
	case "left", "outer":
		return view{neg(z), y, x}, true
	case "right", "inner":
		return view{z, y, neg(x)}, false
	case "top":
		return view{neg(x), z, y}, true
	default: // front
		return view{x, y, z}, false
	}
}

func (v view) see(p r3.Vec) r2.Vec { return r2.Vec{X: r3.Dot(p, v.right), Y: r3.Dot(p, v.up)} }

// newCutout makes a cutout of a curve written in the template's coordinates.
func newCutout(name, from string, curve []r2.Vec) cutout {
	v, flip := viewFrom(from)
	pts := append([]r2.Vec(nil), curve...)
	if flip {
		for i := range pts {
			pts[i].X = -pts[i].X
		}
	}
	return cutout{name: name, view: v, curve: geom.CCW(pts)}
}

// reflected is the cutout's mirror image about the piece's x = 0 plane.
func (c cutout) reflected() cutout {
	v := c.view
	out := cutout{name: c.name, view: v}
	mirror := func(a r3.Vec) r3.Vec { return r3.Vec{X: -a.X, Y: a.Y, Z: a.Z} }
	// Seen from the mirrored side, with right turned so that the viewer's right stays right.
	out.view = view{right: r3.Scale(-1, mirror(v.right)), up: mirror(v.up), toward: mirror(v.toward)}
	for _, p := range c.curve {
		out.curve = append(out.curve, r2.Vec{X: -p.X, Y: p.Y})
	}
	out.curve = geom.CCW(out.curve)
	return out
}

// smoothStep (detail): the longest chord of a smooth drawn curve.
const smoothStep = 1.5
