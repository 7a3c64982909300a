package pattern

import (
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A cutout's curve is followed over the triangles of a panel. The sight through
// one of its chords is a wedge between two rays; each triangle that the eye sees
// is cut by each wedge, and what is cut is carried into the plane with the
// triangle. A crossing of a triangle's edge is computed from the edge's two
// points in space in a fixed order, so the panels on either side of a seam find
// it at the very same place.

// piece is a part of one chord of the curve inside one triangle.
type piece struct {
	seg       int
	t0, t1    float64 // shares of the chord
	p0, p1    r2.Vec  // in the plane
	b0, b1    r3.Vec  // on the bent surface
	in, out   place   // on the border, if the ends lie there
	inB, outB bool
}

// wedge is what the eye sees through a chord of the curve. A place q of its
// plane stands at o + α·(ray to the chord's start) + β·(ray to its end).
type wedge struct {
	o, n        r3.Vec // a point of the plane, and its unit normal
	alpha, beta r3.Vec
	far         bool // then α = 1 - β
}

func (e eye) wedge(a, b r3.Vec) wedge {
	ray := e.ray(a)
	n := r3.Cross(ray, r3.Sub(b, a))
	l := r3.Norm2(n)
	w := wedge{o: a, n: r3.Unit(n), beta: r3.Scale(1/l, r3.Cross(n, ray)), far: e.kind == far}
	if !w.far {
		w.o, w.alpha = e.at, r3.Scale(1/l, r3.Cross(r3.Sub(b, e.at), n))
	}
	return w
}

func (w *wedge) shares(q r3.Vec) (alpha, beta float64) {
	v := r3.Sub(q, w.o)
	beta = r3.Dot(v, w.beta)
	if w.far {
		return 1 - beta, beta
	}
	return r3.Dot(v, w.alpha), beta
}

func (c *cutout) wedges() []wedge {
	n := len(c.curve)
	if c.kind == splits { // an open curve
		n--
	}
	out := make([]wedge, n)
	for i := range out {
		out[i] = c.eye.wedge(c.curve[i], c.curve[(i+1)%len(c.curve)])
	}
	return out
}

// clip follows a cutout's curve over a panel.
func (p *rawPanel) clip(c *cutout, b border) []piece {
	var out []piece
	box := geom.Bounds(c.region)
	picture, round := p.picture(c.eye), c.eye.kind == within
	var wedges []wedge
	var chords *views
	for ti, t := range p.surf.T {
		if !c.eye.faces(p.surf.Bent[t[0]], p.surf.normal(ti)) {
			continue
		}
		tri := cutTriangle{panel: p, t: t, border: b}
		look := [3]r2.Vec{picture[t[0]], picture[t[1]], picture[t[2]]}
		if !round && apart(boxOf(look[:]), box) {
			continue
		}
		if wedges == nil { // most cutouts touch few panels
			wedges, chords = c.wedges(), c.views()
		}
		for _, s := range chords.near(look, len(wedges)) {
			if pc, ok := tri.clip(&wedges[s]); ok {
				pc.seg = s
				out = append(out, pc)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].seg != out[j].seg {
			return out[i].seg < out[j].seg
		}
		return out[i].t0 < out[j].t0
	})
	return out
}

type cutTriangle struct {
	panel  *rawPanel
	t      [3]int
	border border
}

// Tolerances of rounding: onEdge is how near to a wedge's plane, in mm, a
// triangle's corner lies on it; onRay is the share of a chord by which a
// crossing may miss the chord's end and still be it; a part of a chord no
// longer than that is the touch of a corner.
const (
	onEdge = 1e-9
	onRay  = 1e-10
)

// crossing is where a wedge's plane leaves a triangle.
type crossing struct {
	edge        int
	bent        r3.Vec
	flat        r2.Vec
	alpha, beta float64
}

// until is the place at a share of the way to another crossing.
func (c *crossing) until(o *crossing, share float64) (r2.Vec, r3.Vec) {
	return geom.Lerp(c.flat, o.flat, share), geom.Lerp(c.bent, o.bent, share)
}

// clip gives the part of a wedge's chord inside the triangle.
func (t *cutTriangle) clip(w *wedge) (pc piece, ok bool) {
	a, b, ok := t.ends(w)
	if !ok || b.beta <= onRay || a.alpha <= onRay {
		return pc, false // not cut, or before the chord's start, or beyond its end
	}
	pc.t1 = 1
	if a.beta >= -onRay {
		pc.t0 = max(a.beta, 0) / (a.alpha + max(a.beta, 0))
		pc.p0, pc.b0 = a.flat, a.bent
		pc.in, pc.inB = t.onBorder(&a)
	} else {
		pc.p0, pc.b0 = a.until(&b, a.beta/(a.beta-b.beta))
	}
	if b.alpha >= -onRay {
		pc.t1 = b.beta / (max(b.alpha, 0) + b.beta)
		pc.p1, pc.b1 = b.flat, b.bent
		pc.out, pc.outB = t.onBorder(&b)
	} else {
		pc.p1, pc.b1 = a.until(&b, a.alpha/(a.alpha-b.alpha))
	}
	return pc, pc.t1-pc.t0 > onRay
}

// ends are where the wedge's plane comes into the triangle and leaves it, in the
// sense of the chord; ok is false if the plane does not cut it.
func (t *cutTriangle) ends(w *wedge) (a, b crossing, ok bool) {
	var s [3]float64
	for k, v := range t.t {
		if s[k] = r3.Dot(w.n, r3.Sub(t.panel.surf.Bent[v], w.o)); math.Abs(s[k]) < onEdge {
			s[k] = 0
		}
	}
	if (s[0] >= 0) == (s[1] >= 0) && (s[0] >= 0) == (s[2] >= 0) {
		return a, b, false
	}
	for k := range 3 {
		if (s[k] >= 0) != (s[(k+1)%3] >= 0) {
			a, b = b, t.crossing(k, s[k], s[(k+1)%3], w)
		}
	}
	if a.alpha*b.beta < b.alpha*a.beta {
		a, b = b, a
	}
	return a, b, true
}

// crossing is where the plane crosses edge k, whose ends lie at distances from
// it, computed in an order that does not depend on the triangle.
func (t *cutTriangle) crossing(k int, from, to float64, w *wedge) crossing {
	i, j := t.t[k], t.t[(k+1)%3]
	if before(t.panel.surf.Bent[j], t.panel.surf.Bent[i]) {
		i, j, from, to = j, i, to, from
	}
	share := from / (from - to)
	c := crossing{edge: k, bent: geom.Lerp(t.panel.surf.Bent[i], t.panel.surf.Bent[j], share), flat: geom.Lerp(t.panel.surf.Flat[i], t.panel.surf.Flat[j], share)}
	c.alpha, c.beta = w.shares(c.bent)
	return c
}

// onBorder gives the place of a crossing on the panel's border, if it lies
// there.
func (t *cutTriangle) onBorder(c *crossing) (place, bool) {
	i, j := t.t[c.edge], t.t[(c.edge+1)%3]
	seg, ok := t.border.byEdge[[2]int{i, j}]
	if !ok {
		return place{}, false
	}
	a, b := t.panel.surf.Bent[i], t.panel.surf.Bent[j]
	ab := r3.Sub(b, a)
	return place{seg, r3.Dot(r3.Sub(c.bent, a), ab) / r3.Norm2(ab)}, true
}

func before(a, b r3.Vec) bool {
	if a.Y != b.Y {
		return a.Y < b.Y
	}
	if a.X != b.X {
		return a.X < b.X
	}
	return a.Z < b.Z
}
