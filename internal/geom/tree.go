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
	from, to int32 // triangles order[from:to]
	right    int32 // 0 for a leaf
}

// leafSize is the most triangles in a leaf.
const leafSize = 4

// deepest is more than the levels of any tree: each halves its triangles.
const deepest = 40

// grower makes a tree of a mesh's triangles.
type grower struct {
	order []ranked
	nodes []node
	at    []extent // of each triangle
}

// extent is a box and three times the centre of a triangle in it.
type extent struct{ lo, hi, middle r3.Vec }

// ranked is a triangle and the key by which triangles are halved.
type ranked struct {
	key float64
	tri int32
}

// newTree gives the triangles with area, in an order so that every node holds a
// stretch of them, and the nodes.
func newTree(m Mesh) (order []int32, nodes []node) {
	n := len(m.T)
	g := grower{order: make([]ranked, 0, n), at: make([]extent, n)}
	for i, t := range m.T {
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		if r3.Norm2(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) > 0 {
			g.order = append(g.order, ranked{tri: int32(i)})
		}
		g.at[i] = extent{lower(lower(a, b), c), upper(upper(a, b), c), r3.Add(r3.Add(a, b), c)}
	}
	if len(g.order) > 0 {
		g.nodes = make([]node, 0, len(g.order))
		g.grow(0, len(g.order))
	}
	order = make([]int32, len(g.order))
	for i, r := range g.order {
		order[i] = r.tri
	}
	return order, g.nodes
}

// grow makes the node of a stretch of triangles and those below it, halved
// along the longest side.
func (g *grower) grow(from, to int) int {
	at, part := len(g.nodes), g.order[from:to]
	n := node{from: int32(from), to: int32(to), lo: splat(math.Inf(1)), hi: splat(math.Inf(-1))}
	for _, r := range part {
		e := &g.at[r.tri]
		n.lo, n.hi = lower(n.lo, e.lo), upper(n.hi, e.hi)
	}
	g.nodes = append(g.nodes, n)
	if to-from > leafSize {
		g.rank(part, r3.Sub(n.hi, n.lo))
		halve(part)
		half := (from + to) / 2
		g.grow(from, half)
		g.nodes[at].right = int32(g.grow(half, to))
	}
	return at
}

// rank gives triangles their keys along the longest side of a box.
func (g *grower) rank(part []ranked, size r3.Vec) {
	switch {
	case size.X >= size.Y && size.X >= size.Z:
		for i := range part {
			part[i].key = g.at[part[i].tri].middle.X
		}
	case size.Y >= size.Z:
		for i := range part {
			part[i].key = g.at[part[i].tri].middle.Y
		}
	default:
		for i := range part {
			part[i].key = g.at[part[i].tri].middle.Z
		}
	}
}

// halve puts the half of some triangles whose keys are less before the others;
// where the halves are leaves, all in order. Source: Hoare, "Algorithm 65: Find",
// Communications of the ACM 4(7), 1961.
func halve(part []ranked) {
	half := len(part) / 2
	lo, hi := 0, len(part) // what lies before lo is less than all from there on, and so on
	for round := 0; hi-lo > 2*leafSize+1 && round < mostHalvings; round++ {
		pivot := part[(lo+hi)/2]
		i, j := lo, hi-1
		for i <= j {
			for part[i].before(pivot) {
				i++
			}
			for pivot.before(part[j]) {
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
	inOrder(part[lo:hi])
}

// inOrder sorts triangles, few of them but where the halving was given up.
func inOrder(part []ranked) {
	if len(part) > 2*leafSize+1 {
		slices.SortFunc(part, func(a, b ranked) int {
			if a.before(b) {
				return -1
			}
			return 1
		})
		return
	}
	for i := 1; i < len(part); i++ {
		for j := i; j > 0 && part[j].before(part[j-1]); j-- {
			part[j], part[j-1] = part[j-1], part[j]
		}
	}
}

// mostHalvings caps the search for a median, which needs about as many halvings
// as a number of triangles has binary digits, before plain sorting.
const mostHalvings = 60

// before orders triangles by their keys, and equals as the mesh has them.
func (a ranked) before(b ranked) bool {
	return a.key < b.key || a.key == b.key && a.tri < b.tri
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
