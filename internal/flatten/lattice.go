package flatten

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// bandWidth is how far, in parts of the rails' lengths, the two ends of a rung
// may be apart in the first try. A best strip that leans on this limit is
// searched again without it.
const bandWidth = 0.25

// tie (rounding): two ways that cost the same to this, in mm·rad², are equal,
// and the one that advances along P wins. So rounding, which differs between
// processors, does not choose.
const tie = 1e-9

// The two kinds of triangle that can be laid last at rung (i, j).
const (
	alongP = iota // P[i-1], P[i], Q[j]
	alongQ        // P[i], Q[j], Q[j-1]
)

// lattice is the graph of rungs (i, j) from P[i] to Q[j], each reached by a
// triangle of either kind.
type lattice struct {
	p, q     []r3.Vec
	first    [2]int // the rung that is there before any triangle
	last     [2]int // the rung after which nothing is left
	lo, hi   []int  // for each i, the range of j (hi is past the end) that is searched
	back     []uint8
	f        []float64 // least cost to reach a rung by a kind of triangle
	fromP    []float64 // arc lengths, as parts of the rail's length
	fromQ    []float64
	n        int
	row, old []triangles // normals at rungs (i, ·) and (i-1, ·)
}

// triangles are the unit normals of the two triangles that can be laid last at
// a rung; zero when the triangle has no area.
type triangles [2]r3.Vec

func newLattice(p, q []r3.Vec) *lattice {
	m, n := len(p), len(q)
	l := &lattice{p: p, q: q, n: n, last: [2]int{m - 1, n - 1}}
	if n > 1 && m > 1 {
		if geom.Dist(p[0], q[0]) <= geom.Coincident {
			l.first = [2]int{0, 1} // the point belongs to P alone
		}
		if geom.Dist(p[m-1], q[n-1]) <= geom.Coincident {
			l.last = [2]int{m - 1, n - 2}
		}
	}
	l.fromP, l.fromQ = parts(p), parts(q)
	l.lo, l.hi = make([]int, m), make([]int, m)
	l.back = make([]uint8, 2*m*n)
	l.f = make([]float64, 2*m*n)
	l.row, l.old = make([]triangles, n), make([]triangles, n)
	return l
}

// parts are a rail's arc lengths as parts of its whole length.
func parts(rail []r3.Vec) []float64 {
	cum := geom.Lengths(rail)
	if whole := cum[len(cum)-1]; whole > 0 {
		for i := range cum {
			cum[i] /= whole
		}
	}
	return cum
}

// limit sets the range of rungs that is searched to those whose ends are no
// further apart than width.
func (l *lattice) limit(width float64) {
	j0, j1 := l.first[1], l.last[1]+1
	for i, s := range l.fromP {
		lo, hi := j0, j1
		for lo < j1-1 && l.fromQ[lo] < s-width {
			lo++
		}
		for hi > lo+1 && l.fromQ[hi-1] > s+width {
			hi--
		}
		l.lo[i], l.hi[i] = lo, hi
	}
}

// at is the place of rung (i, j) in the flat arrays, for kind alongP.
func (l *lattice) at(i, j int) int { return 2 * (i*l.n + j) }

// solve fills the lattice and gives the kind of the last triangle; ok is false
// if no strip exists within the limit.
func (l *lattice) solve() (end int, ok bool) {
	for k := range l.f {
		l.f[k] = math.Inf(1)
	}
	for i := range l.p {
		l.row, l.old = l.old, l.row
		clear(l.row)
		for j := l.lo[i]; j < l.hi[i]; j++ {
			l.reach(i, j)
		}
	}
	k := l.at(l.last[0], l.last[1])
	end = alongP
	if l.f[k+alongQ] < l.f[k+alongP]-tie {
		end = alongQ
	}
	return end, !math.IsInf(l.f[k+end], 1)
}

// reach computes the least cost of rung (i, j) for both kinds of triangle.
func (l *lattice) reach(i, j int) {
	k := l.at(i, j)
	if i > 0 && j < l.hi[i-1] && j >= l.lo[i-1] {
		n := normal(l.p[i-1], l.p[i], l.q[j])
		l.row[j][alongP] = n
		l.f[k+alongP], l.back[k+alongP] = l.best(i-1, j, &l.old[j], n)
	}
	if j > l.lo[i] {
		n := normal(l.p[i], l.q[j], l.q[j-1])
		l.row[j][alongQ] = n
		l.f[k+alongQ], l.back[k+alongQ] = l.best(i, j-1, &l.row[j-1], n)
	}
}

// best is the least cost of laying a triangle with normal n onto rung (i, j),
// and the kind of triangle that lies before it.
func (l *lattice) best(i, j int, before *triangles, n r3.Vec) (float64, uint8) {
	if n == (r3.Vec{}) {
		return math.Inf(1), alongP
	}
	if i == l.first[0] && j == l.first[1] {
		return 0, alongP
	}
	k := l.at(i, j)
	viaP, viaQ := l.f[k+alongP], l.f[k+alongQ]
	rung := geom.Dist(l.p[i], l.q[j])
	if !math.IsInf(viaP, 1) {
		viaP += rung * foldSquared(before[alongP], n)
	}
	if !math.IsInf(viaQ, 1) {
		viaQ += rung * foldSquared(before[alongQ], n)
	}
	if viaQ < viaP-tie {
		return viaQ, alongQ
	}
	return viaP, alongP
}

// normal is the unit normal of a triangle, zero when it is so slender that it
// has none.
func normal(a, b, c r3.Vec) r3.Vec {
	ab, ac := r3.Sub(b, a), r3.Sub(c, a)
	n := r3.Cross(ab, ac)
	l2 := r3.Norm2(n)
	if l2 <= 1e-18*r3.Norm2(ab)*r3.Norm2(ac) {
		return r3.Vec{}
	}
	return r3.Scale(1/math.Sqrt(l2), n)
}

// foldSquared is the square of the angle between two unit normals, infinite
// beyond a right angle. It comes from their chord, which keeps all digits of
// small angles: with u = sin²(θ/2), θ² = 4·asin²√u.
func foldSquared(a, b r3.Vec) float64 {
	u := r3.Norm2(r3.Sub(a, b)) / 4
	switch {
	case u > 0.5:
		return math.Inf(1)
	case u < 1e-3: // the series' next term is below 1e-12 of the sum
		return 4 * u * (1 + u*(1./3+u*(8./45+u*(4./35))))
	}
	asin := math.Asin(math.Sqrt(u))
	return 4 * asin * asin
}

func (l *lattice) cost(end int) float64 { return l.f[l.at(l.last[0], l.last[1])+end] }

// walk visits the triangles of the best strip from the last to the first: the
// rung that each ends on, and its kind.
func (l *lattice) walk(end int, visit func(i, j, kind int)) {
	i, j, kind := l.last[0], l.last[1], end
	for i != l.first[0] || j != l.first[1] {
		visit(i, j, kind)
		before := int(l.back[l.at(i, j)+kind])
		if kind == alongP {
			i--
		} else {
			j--
		}
		kind = before
	}
}

// touchesLimit tells whether the best strip uses a rung at the border of the
// searched range that is not a border of the lattice.
func (l *lattice) touchesLimit(end int) bool {
	touches := false
	l.walk(end, func(i, j, _ int) {
		low := j == l.lo[i] && j > l.first[1]
		high := j == l.hi[i]-1 && j < l.last[1]
		touches = touches || low || high
	})
	return touches
}

// triangles lists the best strip's triangles from the first to the last.
func (l *lattice) triangles(end int) [][3]int {
	m := len(l.p)
	var out [][3]int
	l.walk(end, func(i, j, kind int) {
		if kind == alongP {
			out = append(out, [3]int{i - 1, i, m + j})
		} else {
			out = append(out, [3]int{i, m + j, m + j - 1})
		}
	})
	for a, b := 0, len(out)-1; a < b; a, b = a+1, b-1 {
		out[a], out[b] = out[b], out[a]
	}
	return out
}
