package geom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Locator answers which point of a mesh is nearest, and what a ray meets first.
// It is a tree of boxes; among equals the triangle that the tree holds first
// wins, always the same one. It may be used by several goroutines at once.
type Locator struct {
	m     Mesh
	order []int // triangles, so that every node holds a stretch of them
	nodes []node
	key   []float64 // of triangles, while the tree is built
	pseudo
}

// node is a box and either a stretch of triangles or two further nodes: the
// next one, and that at right.
type node struct {
	lo, hi   r3.Vec
	from, to int // triangles order[from:to]
	right    int // 0 for a leaf
}

// leafSize is the most triangles in a leaf.
const leafSize = 4

// NewLocator prepares a mesh, which must not be changed afterwards. Triangles
// without area are left out.
func NewLocator(m Mesh) *Locator {
	l := &Locator{m: m}
	for i, t := range m.T {
		if faceNormal(m.V, t) != (r3.Vec{}) {
			l.order = append(l.order, i)
		}
	}
	l.pseudo = newPseudo(m)
	if len(l.order) > 0 {
		l.key = make([]float64, len(m.T))
		l.build(0, len(l.order))
		l.key = nil
	}
	return l
}

// build makes the node of a stretch of triangles and those below it, halved
// along the longest side.
func (l *Locator) build(from, to int) int {
	at := len(l.nodes)
	n := node{from: from, to: to, lo: splat(math.Inf(1)), hi: splat(math.Inf(-1))}
	for _, t := range l.order[from:to] {
		for _, v := range l.m.T[t] {
			n.lo, n.hi = lower(n.lo, l.m.V[v]), upper(n.hi, l.m.V[v])
		}
	}
	l.nodes = append(l.nodes, n)
	if to-from > leafSize {
		along := longest(r3.Sub(n.hi, n.lo))
		for _, t := range l.order[from:to] {
			l.key[t] = l.middle(t, along)
		}
		l.halve(l.order[from:to])
		half := (from + to) / 2
		l.build(from, half)
		right := l.build(half, to)
		l.nodes[at].right = right
	}
	return at
}

// halve puts the half of some triangles whose keys are less before the others;
// where the halves are leaves, all in order. Source: Hoare, "Algorithm 65: Find",
// Communications of the ACM 4(7), 1961.
func (l *Locator) halve(part []int) {
	half := len(part) / 2
	lo, hi := 0, len(part) // what lies before lo is less than all from there on, and so on
	for round := 0; hi-lo > 2*leafSize+1 && round < mostHalvings; round++ {
		pivot := part[(lo+hi)/2]
		i, j := lo, hi-1
		for i <= j {
			for l.compare(part[i], pivot) < 0 {
				i++
			}
			for l.compare(pivot, part[j]) < 0 {
				j--
			}
			if i <= j {
				part[i], part[j] = part[j], part[i]
				i, j = i+1, j-1
			}
		}
		if half <= j {
			hi = j + 1
		} else if half >= i {
			lo = i
		} else {
			return
		}
	}
	slices.SortFunc(part[lo:hi], l.compare)
}

// mostHalvings caps the search for a median, which needs about as many halvings
// as a number of triangles has binary digits, before plain sorting.
const mostHalvings = 60

// compare orders triangles by their keys.
func (l *Locator) compare(a, b int) int {
	switch {
	case l.key[a] < l.key[b]:
		return -1
	case l.key[a] > l.key[b]:
		return 1
	}
	return a - b
}

// middle is three times a triangle's centre along an axis.
func (l *Locator) middle(t int, axis r3.Vec) float64 {
	c := l.m.T[t]
	return r3.Dot(axis, r3.Add(r3.Add(l.m.V[c[0]], l.m.V[c[1]]), l.m.V[c[2]]))
}

// Distance is how far p is from the mesh, negative inside, and the nearest
// point of it. The sign is that of the angle-weighted normal at the nearest
// point, right for any closed mesh; on an open mesh it tells the side. An empty
// mesh is infinitely far away.
func (l *Locator) Distance(p r3.Vec) (d float64, nearest r3.Vec) {
	t, nearest := l.Nearest(p)
	if t < 0 {
		return math.Inf(1), nearest
	}
	away := r3.Sub(p, nearest)
	d = r3.Norm(away)
	if r3.Dot(away, l.normalAt(t, nearest)) < 0 {
		d = -d
	}
	return d, nearest
}

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
	if len(l.nodes) > 0 {
		l.nearest(0, &s)
	}
	return s.tri, s.nearest
}

// search is the nearest point found so far.
type search struct {
	p, nearest r3.Vec
	best       float64 // squared distance
	tri        int
}

func (l *Locator) nearest(at int, s *search) {
	n := &l.nodes[at]
	if n.right == 0 {
		for _, t := range l.order[n.from:n.to] {
			c := l.m.T[t]
			q := nearestOnTriangle(s.p, l.m.V[c[0]], l.m.V[c[1]], l.m.V[c[2]])
			if d := r3.Norm2(r3.Sub(q, s.p)); d < s.best {
				s.best, s.nearest, s.tri = d, q, t
			}
		}
		return
	}
	near, far := at+1, n.right
	dNear, dFar := l.nodes[near].dist2(s.p), l.nodes[far].dist2(s.p)
	if dFar < dNear {
		near, far, dNear, dFar = far, near, dFar, dNear
	}
	if dNear < s.best {
		l.nearest(near, s)
	}
	if dFar < s.best {
		l.nearest(far, s)
	}
}

// dist2 is the squared distance from p to the node's box.
func (n *node) dist2(p r3.Vec) float64 {
	x := max(n.lo.X-p.X, 0, p.X-n.hi.X)
	y := max(n.lo.Y-p.Y, 0, p.Y-n.hi.Y)
	z := max(n.lo.Z-p.Z, 0, p.Z-n.hi.Z)
	return x*x + y*y + z*z
}

func splat(v float64) r3.Vec { return r3.Vec{X: v, Y: v, Z: v} }

func lower(a, b r3.Vec) r3.Vec {
	return r3.Vec{X: min(a.X, b.X), Y: min(a.Y, b.Y), Z: min(a.Z, b.Z)}
}

func upper(a, b r3.Vec) r3.Vec {
	return r3.Vec{X: max(a.X, b.X), Y: max(a.Y, b.Y), Z: max(a.Z, b.Z)}
}

// longest is the axis along which a size is largest.
func longest(size r3.Vec) r3.Vec {
	switch {
	case size.X >= size.Y && size.X >= size.Z:
		return r3.Vec{X: 1}
	case size.Y >= size.Z:
		return r3.Vec{Y: 1}
	}
	return r3.Vec{Z: 1}
}
