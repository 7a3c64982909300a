package geom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// node is a box and either a stretch of triangles or two further nodes: the
// next one, and that at right.
type node struct {
	lo, hi   r3.Vec
	from, to int // triangles order[from:to]
	right    int // 0 for a leaf
}

// leafSize is the most triangles in a leaf.
const leafSize = 4

// grower makes a tree of a mesh's triangles.
type grower struct {
	order  []int
	nodes  []node
	lo, hi []r3.Vec  // corners of a box round each triangle
	middle []r3.Vec  // three times the centre of each triangle
	key    []float64 // by which triangles are halved
}

// newTree gives the triangles with area, in an order so that every node holds a
// stretch of them, and the nodes.
func newTree(m Mesh) (order []int, nodes []node) {
	n := len(m.T)
	g := grower{lo: make([]r3.Vec, n), hi: make([]r3.Vec, n), middle: make([]r3.Vec, n), key: make([]float64, n)}
	for i, t := range m.T {
		if faceNormal(m.V, t) != (r3.Vec{}) {
			g.order = append(g.order, i)
		}
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		g.lo[i], g.hi[i] = lower(lower(a, b), c), upper(upper(a, b), c)
		g.middle[i] = r3.Add(r3.Add(a, b), c)
	}
	if len(g.order) > 0 {
		g.nodes = make([]node, 0, len(g.order))
		g.grow(0, len(g.order))
	}
	return g.order, g.nodes
}

// grow makes the node of a stretch of triangles and those below it, halved
// along the longest side.
func (g *grower) grow(from, to int) int {
	at := len(g.nodes)
	n := node{from: from, to: to, lo: splat(math.Inf(1)), hi: splat(math.Inf(-1))}
	for _, t := range g.order[from:to] {
		n.lo, n.hi = lower(n.lo, g.lo[t]), upper(n.hi, g.hi[t])
	}
	g.nodes = append(g.nodes, n)
	if to-from > leafSize {
		along := longest(r3.Sub(n.hi, n.lo))
		for _, t := range g.order[from:to] {
			g.key[t] = r3.Dot(along, g.middle[t])
		}
		g.halve(g.order[from:to])
		half := (from + to) / 2
		g.grow(from, half)
		right := g.grow(half, to)
		g.nodes[at].right = right
	}
	return at
}

// halve puts the half of some triangles whose keys are less before the others;
// where the halves are leaves, all in order. Source: Hoare, "Algorithm 65: Find",
// Communications of the ACM 4(7), 1961.
func (g *grower) halve(part []int) {
	half := len(part) / 2
	lo, hi := 0, len(part) // what lies before lo is less than all from there on, and so on
	for round := 0; hi-lo > 2*leafSize+1 && round < mostHalvings; round++ {
		pivot := part[(lo+hi)/2]
		i, j := lo, hi-1
		for i <= j {
			for g.compare(part[i], pivot) < 0 {
				i++
			}
			for g.compare(pivot, part[j]) < 0 {
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
	slices.SortFunc(part[lo:hi], g.compare)
}

// mostHalvings caps the search for a median, which needs about as many halvings
// as a number of triangles has binary digits, before plain sorting.
const mostHalvings = 60

// compare orders triangles by their keys.
func (g *grower) compare(a, b int) int {
	switch {
	case g.key[a] < g.key[b]:
		return -1
	case g.key[a] > g.key[b]:
		return 1
	}
	return a - b
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
