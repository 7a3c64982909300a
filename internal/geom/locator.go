package geom

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// Locator answers which point of a mesh is nearest, and what a ray meets first.
// It is a tree of boxes; among equals the triangle that the tree holds first
// wins, always the same one. It may be used by several goroutines at once.
type Locator struct {
	m      Mesh
	order  []int32     // triangles, so that every node holds a stretch of them
	corner [][3]r3.Vec // of the triangles, in that order: what is asked for together lies together
	nodes  []node
	sides  func() pseudo // few ask on which side they are
}

// NewLocator prepares a mesh, which must not be changed afterwards. Triangles
// without area are left out.
func NewLocator(m Mesh) *Locator {
	l := &Locator{m: m, sides: sync.OnceValue(func() pseudo { return newPseudo(m) })}
	l.order, l.nodes = newTree(m)
	l.corner = make([][3]r3.Vec, len(l.order))
	for i, t := range l.order {
		c := m.T[t]
		l.corner[i] = [3]r3.Vec{m.V[c[0]], m.V[c[1]], m.V[c[2]]}
	}
	return l
}

// Distance is how far p is from the mesh, negative inside, and the nearest
// point of it. The sign is that of the angle-weighted normal at the nearest
// point, right for any closed mesh; on an open mesh it tells the side. An empty
// mesh is infinitely far away.
func (l *Locator) Distance(p r3.Vec) (d float64, nearest r3.Vec) {
	s := search{p: p, best: math.Inf(1), tri: -1}
	l.nearest(&s)
	return l.signed(&s), s.nearest
}

// signed is how far the nearest point is, negative inside.
func (l *Locator) signed(s *search) float64 {
	if s.tri < 0 {
		return math.Inf(1)
	}
	away := r3.Sub(s.p, s.nearest)
	d := math.Sqrt(r3.Norm2(away))
	if r3.Dot(away, l.sides().normalAt(s.tri, s.nearest)) < 0 {
		return -d
	}
	return d
}

// Nearer is the lesser of nearest and the Distance of p from a closed mesh. It costs
// less where the mesh is farther away.
func (l *Locator) Nearer(p r3.Vec, nearest float64) float64 {
	s := search{p: p, best: nearest * nearest, tri: -1}
	if l.nearest(&s); s.tri < 0 || nearest <= 0 {
		if nearest > 0 && !l.deepIn(p) {
			return nearest
		}
		s.best = math.Inf(1)
		l.nearest(&s)
	}
	return min(nearest, l.signed(&s))
}

// NearerOutside is Nearer for a point that is known to be outside.
func (l *Locator) NearerOutside(p r3.Vec, nearest float64) float64 {
	if nearest <= 0 {
		return nearest
	}
	s := search{p: p, best: nearest * nearest, tri: -1}
	if l.nearest(&s); s.tri < 0 {
		return nearest
	}
	return math.Sqrt(s.best)
}

// deepIn tells whether a place that is not at the surface of a closed mesh lies inside:
// the ray out of the middle leaves the mesh before it enters it.
func (l *Locator) deepIn(p r3.Vec) bool {
	if len(l.nodes) == 0 || l.nodes[0].dist2(p) > 0 {
		return false
	}
	out := r3.Sub(p, r3.Scale(0.5, r3.Add(l.nodes[0].lo, l.nodes[0].hi)))
	if out == (r3.Vec{}) {
		out.X = 1
	}
	_, tri, hit := l.Hit(p, out)
	return hit && r3.Dot(faceNormal(l.m.V, l.m.T[tri]), out) > 0
}

// Mesh is the mesh that it was made of, which must not be changed.
func (l *Locator) Mesh() Mesh { return l.m }

// Away is how far p is outside a box round the mesh, 0 inside it: no more than
// its Distance.
func (l *Locator) Away(p r3.Vec) float64 {
	if len(l.nodes) == 0 {
		return math.Inf(1)
	}
	return math.Sqrt(l.nodes[0].dist2(p))
}

// Nearest is the triangle nearest to p and its nearest point; -1 on an empty
// mesh.
func (l *Locator) Nearest(p r3.Vec) (tri int, nearest r3.Vec) {
	s := search{p: p, best: math.Inf(1), tri: -1}
	l.nearest(&s)
	return s.tri, s.nearest
}

// NearestFrom is Nearest for who asks about places close to each other: guess is the
// triangle that was nearest to the last one, or -1. Among equals it may give the
// guess.
func (l *Locator) NearestFrom(p r3.Vec, guess int) (tri int, nearest r3.Vec) {
	if guess < 0 {
		return l.Nearest(p)
	}
	c := l.m.T[guess]
	q := nearestOnTriangle(p, l.m.V[c[0]], l.m.V[c[1]], l.m.V[c[2]])
	s := search{p: p, nearest: q, best: r3.Norm2(r3.Sub(q, p)), tri: guess}
	l.nearest(&s)
	return s.tri, s.nearest
}

// search is the nearest point found so far.
type search struct {
	p, nearest r3.Vec
	best       float64 // squared distance
	tri        int
}

// later is a node that is looked at once nearer ones are done.
type later struct {
	node int32
	from float64 // how far it is: squared, or along a ray
}

// nearest goes down the tree, to the nearer node first.
func (l *Locator) nearest(s *search) {
	if len(l.nodes) == 0 {
		return
	}
	var left [deepest]later
	count, at := 0, int32(0)
	for {
		n := &l.nodes[at]
		if n.right > 0 {
			near, far := at+1, n.right
			dNear, dFar := l.nodes[near].dist2(s.p), l.nodes[far].dist2(s.p)
			if dFar < dNear {
				near, far, dNear, dFar = far, near, dFar, dNear
			}
			if dNear < s.best {
				if dFar < s.best {
					left[count] = later{far, dFar}
					count++
				}
				at = near
				continue
			}
		} else {
			l.nearestOf(n, s)
		}
		for count--; count >= 0 && left[count].from >= s.best; count-- {
		}
		if count < 0 {
			return
		}
		at = left[count].node
	}
}

// nearestOf tries the triangles of a leaf.
func (l *Locator) nearestOf(n *node, s *search) {
	for i := n.from; i < n.to; i++ {
		c := &l.corner[i]
		q := nearestOnTriangle(s.p, c[0], c[1], c[2])
		if d := r3.Norm2(r3.Sub(q, s.p)); d < s.best {
			s.best, s.nearest, s.tri = d, q, int(l.order[i])
		}
	}
}
