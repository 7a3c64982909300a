package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hit is the first triangle that the ray from origin meets, from either side,
// and where: at origin + t·dir, t ≥ 0. A ray along an edge between two
// triangles meets at least one of them.
func (l *Locator) Hit(origin, dir r3.Vec) (t float64, tri int, ok bool) {
	if len(l.nodes) == 0 {
		return 0, -1, false
	}
	r := ray{o: origin, d: dir, per: r3.Vec{X: 1 / dir.X, Y: 1 / dir.Y, Z: 1 / dir.Z}, t: math.Inf(1), tri: -1}
	l.cast(0, &r)
	return r.t, r.tri, r.tri >= 0
}

// ray is a ray and the first hit found so far.
type ray struct {
	o, d r3.Vec
	per  r3.Vec // 1/d
	t    float64
	tri  int
}

func (l *Locator) cast(at int, r *ray) {
	n := &l.nodes[at]
	if n.right == 0 {
		for _, i := range l.order[n.from:n.to] {
			c := l.m.T[i]
			if t, ok := r.meets(l.m.V[c[0]], l.m.V[c[1]], l.m.V[c[2]]); ok && t < r.t {
				r.t, r.tri = t, i
			}
		}
		return
	}
	near, far := at+1, n.right
	tNear, tFar := r.enters(&l.nodes[near]), r.enters(&l.nodes[far])
	if tFar < tNear {
		near, far, tNear, tFar = far, near, tFar, tNear
	}
	if tNear < r.t {
		l.cast(near, r)
	}
	if tFar < r.t {
		l.cast(far, r)
	}
}

// enters is where the ray enters a node's box, infinite if it misses it. The box
// is taken larger by Coincident, so that rounding loses no ray along its sides.
func (r *ray) enters(n *node) float64 {
	t0, t1 := 0.0, math.Inf(1)
	slab := func(o, d, per, lo, hi float64) {
		lo, hi = lo-Coincident, hi+Coincident
		if d == 0 {
			if o < lo || o > hi {
				t1 = -1
			}
			return
		}
		a, b := (lo-o)*per, (hi-o)*per
		t0, t1 = max(t0, min(a, b)), min(t1, max(a, b))
	}
	slab(r.o.X, r.d.X, r.per.X, n.lo.X, n.hi.X)
	slab(r.o.Y, r.d.Y, r.per.Y, n.lo.Y, n.hi.Y)
	slab(r.o.Z, r.d.Z, r.per.Z, n.lo.Z, n.hi.Z)
	if t1 < t0 {
		return math.Inf(1)
	}
	return t0
}

// meets is where the ray meets a triangle. Source: Möller and Trumbore, "Fast,
// minimum storage ray/triangle intersection", J. Graphics Tools 2(1), 1997.
func (r *ray) meets(a, b, c r3.Vec) (t float64, ok bool) {
	ab, ac := r3.Sub(b, a), r3.Sub(c, a)
	h := r3.Cross(r.d, ac)
	det := r3.Dot(ab, h)
	if det == 0 {
		return 0, false
	}
	const slack = 1e-12 // rounding: no gap between neighbours
	s := r3.Sub(r.o, a)
	u := r3.Dot(s, h) / det
	q := r3.Cross(s, ab)
	v := r3.Dot(r.d, q) / det
	if u < -slack || v < -slack || u+v > 1+slack {
		return 0, false
	}
	t = r3.Dot(ac, q) / det
	return t, t >= 0
}
