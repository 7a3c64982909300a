package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// ball is a sphere's mesh, closed: rings of 2n points and a point at each pole.
func ball(radius float64, n int) Mesh {
	m := Mesh{V: []r3.Vec{{Y: -radius}}}
	for i := 1; i < n; i++ {
		s, c := math.Sincos(math.Pi * (float64(i)/float64(n) - 0.5))
		for k := range 2 * n {
			sk, ck := math.Sincos(math.Pi * float64(k) / float64(n))
			m.V = append(m.V, r3.Vec{X: radius * c * sk, Y: radius * s, Z: radius * c * ck})
		}
	}
	m.V = append(m.V, r3.Vec{Y: radius})
	at := func(ring, k int) int { return 1 + ring*2*n + k%(2*n) }
	for k := range 2 * n {
		m.T = append(m.T, [3]int{0, at(0, k+1), at(0, k)}, [3]int{len(m.V) - 1, at(n-2, k), at(n-2, k+1)})
		for i := range n - 2 {
			a, b, c, d := at(i, k), at(i, k+1), at(i+1, k), at(i+1, k+1)
			m.T = append(m.T, [3]int{a, b, d}, [3]int{a, d, c})
		}
	}
	return m
}

// box is a box's mesh from the origin to size, two triangles a side.
func box(size r3.Vec) Mesh {
	var m Mesh
	for i := range 8 {
		m.V = append(m.V, r3.Vec{X: size.X * float64(i&1), Y: size.Y * float64(i>>1&1), Z: size.Z * float64(i>>2&1)})
	}
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.T = append(m.T, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
	}
	return m
}

// volume is a closed mesh's, positive when its triangles face outwards.
func volume(m Mesh) (v float64) {
	for _, t := range m.T {
		v += r3.Dot(m.V[t[0]], r3.Cross(m.V[t[1]], m.V[t[2]])) / 6
	}
	return v
}

// polygon is a regular polygon about the origin, counter-clockwise.
func polygon(n int, radius float64) (ring []r2.Vec) {
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring = append(ring, r2.Vec{X: radius * c, Y: radius * s})
	}
	return ring
}
