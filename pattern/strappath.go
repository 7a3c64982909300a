package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// strapPlane is the plane in which a strap lies: u from one anchor to the other,
// m the way that it bulges.
type strapPlane struct {
	from r3.Vec
	u, m r3.Vec
	long float64 // from anchor to anchor
}

// planeOf is the plane through two anchors that goes a way; ok is false where
// the anchors are one place, or lie behind each other on that way.
func planeOf(a, z anchor, way r3.Vec) (p strapPlane, ok bool) {
	p.from, _ = a.place()
	to, _ := z.place()
	if p.long = geom.Dist(p.from, to); p.long < geom.Coincident {
		return p, false
	}
	p.u = r3.Scale(1/p.long, r3.Sub(to, p.from))
	m := r3.Sub(way, r3.Scale(r3.Dot(way, p.u), p.u))
	if r3.Norm(m) < 0.2 { // nothing says which way round it goes
		return p, false
	}
	p.m = r3.Unit(m)
	return p, true
}

// local is a point in the plane's axes.
func (p *strapPlane) local(v r3.Vec) r2.Vec {
	d := r3.Sub(v, p.from)
	return r2.Vec{X: r3.Dot(d, p.u), Y: r3.Dot(d, p.m)}
}

// slice is where a body lies in the plane.
func (p *strapPlane) slice(body geom.Mesh) [][2]r3.Vec {
	return geom.Slice(body, p.from, r3.Cross(p.u, p.m))
}

// taut is how long a band is from anchor to anchor that is drawn over points:
// their convex outline on the side that it bulges to, without the chord.
func (p *strapPlane) taut(over []r2.Vec) float64 {
	pts := []r2.Vec{{}, {X: p.long}}
	for _, q := range over {
		if q.Y > geom.Coincident {
			pts = append(pts, q)
		}
	}
	if len(pts) == 2 {
		return p.long
	}
	return geom.Perimeter(hull(pts)) - p.long
}

// pathBehind is how long a band is from one anchor to another over something round
// of a girth that lies on the straight line between them: both tangents are half
// that line long, and it leaves out of the round what lies between them. (Derived
// here: tangents from one point to a circle are equal.)
func pathBehind(apart, girth float64) float64 {
	r := girth / (2 * math.Pi)
	return apart + r*(2*math.Pi-4*math.Atan2(apart/2, r))
}

// pathOver is how long a band is that is drawn from one anchor to the other over
// bodies, out as they both look: over what stands between them.
func pathOver(a, z anchor, bodies ...geom.Mesh) float64 {
	_, nFrom := a.place()
	_, nTo := z.place()
	p, ok := planeOf(a, z, r3.Add(nFrom, nTo))
	if !ok {
		return p.long
	}
	var over []r2.Vec
	for _, body := range bodies {
		for _, s := range p.slice(body) {
			for _, v := range s {
				if q := p.local(v); q.X > 0 && q.X < p.long {
					over = append(over, q)
				}
			}
		}
	}
	return p.taut(over)
}

// pathRound is how long a band is that is drawn from one anchor to the other
// round the limb that a point lies in, on the side that a way leads to. Other
// parts of the body that the plane meets are not in its way.
func pathRound(body geom.Mesh, a, z anchor, in, way r3.Vec) float64 {
	p, ok := planeOf(a, z, way)
	if !ok {
		return pathOver(a, z, body)
	}
	axis := p.local(in)
	var over, all []r2.Vec
	for _, line := range geom.Chain(p.slice(body)) {
		var loop []r2.Vec
		for _, v := range line {
			loop = append(loop, p.local(v))
		}
		all = append(all, loop...)
		if geom.Inside(loop, axis) {
			over = append(over, loop...)
		}
	}
	if over == nil {
		over = all
	}
	return p.taut(over)
}

// along is the way that a strap leaves its end a, in the flat panel, to a place that
// looks out: in the plane across the axis of what it goes round, about which it turns
// counter-clockwise, or of one that lies along that axis or has none, square to the piece at
// both ends; straight there on a panel that lies across the axis, as a shield does. It
// is zero where nothing tells it.
func (a anchor) along(to, outThere, axis r3.Vec) r2.Vec {
	from, out := a.place()
	if geom.Dist(from, to) < geom.Coincident {
		return r2.Vec{}
	}
	u := r3.Unit(r3.Sub(to, from))
	n := r3.Sub(axis, r3.Scale(r3.Dot(axis, u), u))
	if r3.Norm(n) < 0.5 {
		m := r3.Add(out, outThere)
		n = r3.Cross(m, u)
	}
	way := r3.Cross(n, out)
	if r3.Norm(way) < 0.2 {
		way = r3.Sub(u, r3.Scale(r3.Dot(u, out), out))
	}
	if r3.Norm(way) < 0.2 {
		return r2.Vec{}
	}
	return a.flat(way)
}

// flat is the direction in the flat panel at the anchor that one in body axes is
// along; zero if it stands square on the panel.
func (a anchor) flat(way r3.Vec) r2.Vec {
	const step = 1.0 // mm
	by := func(d r2.Vec) float64 {
		from, to := a, a
		from.q, to.q = r2.Sub(a.q, d), r2.Add(a.q, d)
		p, _ := from.place()
		q, _ := to.place()
		return r3.Dot(r3.Sub(q, p), way)
	}
	v := r2.Vec{X: by(r2.Vec{X: step}), Y: by(r2.Vec{Y: step})}
	if r2.Norm(v) < geom.Coincident {
		return r2.Vec{}
	}
	return r2.Unit(v)
}

// alongTo is along to another anchor, by the way that it bulges to, or if that is not
// known as both look.
func (a anchor) alongTo(z anchor, axis, way r3.Vec) r2.Vec {
	from, here := a.place()
	to, there := z.place()
	if way == (r3.Vec{}) {
		way = r3.Add(here, there)
	}
	if r3.Dot(axis, r3.Cross(way, r3.Sub(to, from))) < 0 {
		axis = r3.Scale(-1, axis)
	}
	return a.along(to, there, axis)
}

// alongAxis is the way of a strap at the anchor that runs along an axis.
func (a anchor) alongAxis(axis r3.Vec) r2.Vec {
	at, out := a.place()
	return a.along(r3.Add(at, axis), out, r3.Vec{})
}

// nearest is the place, of some and of their images on the other side of the body,
// that lies nearest to the anchor.
func (a anchor) nearest(others []anchor) (to, out r3.Vec) {
	from, _ := a.place()
	least := math.Inf(1)
	for _, z := range others {
		at, n := z.place()
		for range 2 {
			if d := geom.Dist(from, at); d < least {
				to, out, least = at, n, d
			}
			at.X, n.X = -at.X, -n.X
		}
	}
	return to, out
}
