package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hit is the first triangle that the ray from origin meets, from either side,
// and where: at origin + t·dir, t ≥ 0. A ray along an edge between two
// triangles meets at least one of them.
func (l *Locator) Hit(origin, dir r3.Vec) (t float64, tri int, ok bool) {
	return l.HitWithin(origin, dir, math.Inf(1))
}

// HitWithin is Hit for who looks no farther than to t = most.
func (l *Locator) HitWithin(origin, dir r3.Vec, most float64) (t float64, tri int, ok bool) {
	r := newRay(origin, dir)
	r.t = math.Nextafter(most, math.Inf(1))
	l.cast(&r)
	return r.t, r.tri, r.tri >= 0
}

// Blocks tells whether the ray from origin meets any triangle.
func (l *Locator) Blocks(origin, dir r3.Vec) bool {
	r := newRay(origin, dir)
	r.any = true
	l.cast(&r)
	return r.tri >= 0
}

// ray is a ray and the first hit found so far.
type ray struct {
	o, d r3.Vec
	per  r3.Vec // 1/d
	t    float64
	tri  int
	any  bool // one hit is enough, wherever it is
}

func newRay(origin, dir r3.Vec) ray {
	return ray{o: origin, d: dir, per: r3.Vec{X: 1 / dir.X, Y: 1 / dir.Y, Z: 1 / dir.Z}, t: math.Inf(1), tri: -1}
}

// cast goes down the tree, first to the node that the ray enters first.
func (l *Locator) cast(r *ray) {
	if len(l.nodes) == 0 {
		return
	}
	var left [deepest]later
	count, at := 0, int32(0)
	for {
		n := &l.nodes[at]
		if n.right > 0 {
			near, far := at+1, n.right
			tNear, tFar := r.enters(&l.nodes[near]), r.enters(&l.nodes[far])
			if tFar < tNear {
				near, far, tNear, tFar = far, near, tFar, tNear
			}
			if tNear < r.t {
				if tFar < r.t {
					left[count] = later{far, tFar}
					count++
				}
				at = near
				continue
			}
		} else if l.castOn(n, r); r.any && r.tri >= 0 {
			return
		}
		for count--; count >= 0 && left[count].from >= r.t; count-- {
		}
		if count < 0 {
			return
		}
		at = left[count].node
	}
}

// castOn tries the triangles of a leaf.
func (l *Locator) castOn(n *node, r *ray) {
	for i := n.from; i < n.to; i++ {
		c := &l.corner[i]
		if t, ok := r.meets(c[0], c[1], c[2]); ok && t < r.t {
			r.t, r.tri = t, int(l.order[i])
		}
	}
}

// enters is where the ray enters a node's box, infinite if it misses it. The box
// is taken larger by Coincident, so that rounding loses no ray along its sides.
func (r *ray) enters(n *node) float64 {
	t0, t1 := 0.0, math.Inf(1)
	t0, t1 = within(t0, t1, r.o.X, r.d.X, r.per.X, n.lo.X, n.hi.X)
	t0, t1 = within(t0, t1, r.o.Y, r.d.Y, r.per.Y, n.lo.Y, n.hi.Y)
	t0, t1 = within(t0, t1, r.o.Z, r.d.Z, r.per.Z, n.lo.Z, n.hi.Z)
	if t1 < t0 {
		return math.Inf(1)
	}
	return t0
}

// within cuts a stretch of a ray down to what lies between two walls square to
// an axis.
func within(t0, t1, o, d, per, lo, hi float64) (from, to float64) {
	lo, hi = lo-Coincident, hi+Coincident
	if d == 0 {
		if o < lo || o > hi {
			t1 = -1
		}
		return t0, t1
	}
	a, b := (lo-o)*per, (hi-o)*per
	if a > b {
		a, b = b, a
	}
	return max(t0, a), min(t1, b)
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
