package view

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// tornTube is a tube whose triangles do not share their corners, and of which every
// second strip is cut finer than its neighbours.
func tornTube(r, high float64, n int) geom.Mesh {
	var m geom.Mesh
	at := func(j int, y float64) r3.Vec {
		a := 2 * math.Pi * float64(j) / float64(n)
		return r3.Vec{X: r * math.Sin(a), Y: y, Z: r * math.Cos(a)}
	}
	add := func(a, b, c r3.Vec) {
		k := len(m.V)
		m.V, m.T = append(m.V, a, b, c), append(m.T, [3]int{k, k + 1, k + 2})
	}
	for j := range n {
		steps := 1 + j%2*7
		for i := range steps {
			low, top := high*float64(i)/float64(steps), high*float64(i+1)/float64(steps)
			add(at(j, low), at(j+1, low), at(j+1, top))
			add(at(j, low), at(j+1, top), at(j, top))
		}
	}
	return m
}

// A torn tube has the two upright silhouettes of a whole one, each as high as it is.
func TestJoined_silhouetteOfATornTube(t *testing.T) {
	const high = 100
	m := tornTube(30, high, 36)
	whole := joined(m)
	var got float64
	for _, e := range whole.silhouette(Camera{Yaw: 0.3}.Eye()) {
		got += geom.Dist(e[0], e[1])
	}
	if math.Abs(got-2*high) > 1e-6 {
		t.Errorf("silhouettes of %.3f mm together, want %d", got, 2*high)
	}
	area := func(m geom.Mesh) (sum float64) {
		for _, t := range m.T {
			sum += r3.Norm(r3.Cross(r3.Sub(m.V[t[1]], m.V[t[0]]), r3.Sub(m.V[t[2]], m.V[t[0]]))) / 2
		}
		return sum
	}
	if a, b := area(m), area(whole.Mesh); math.Abs(a-b) > 1e-6*a {
		t.Errorf("%.3f mm² after joining, want %.3f", b, a)
	}
}
