package pattern

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// sheet is a flat panel of 200 × 100 mm in triangles of 20 mm.
func sheet() *Panel {
	const wide, high, n = 200.0, 100.0, 10
	p := &Panel{}
	for i := range n + 1 {
		for j := range n/2 + 1 {
			q := r2.Vec{X: wide * float64(i) / n, Y: high * float64(j) / (n / 2)}
			p.Surface.Flat = append(p.Surface.Flat, q)
			p.Surface.Bent = append(p.Surface.Bent, r3.Vec{X: q.X, Y: q.Y})
		}
	}
	at := func(i, j int) int { return i*(n/2+1) + j }
	for i := range n {
		for j := range n / 2 {
			p.Surface.T = append(p.Surface.T, [3]int{at(i, j), at(i+1, j), at(i+1, j+1)}, [3]int{at(i, j), at(i+1, j+1), at(i, j+1)})
		}
	}
	c := []r2.Vec{{}, {X: wide}, {X: wide, Y: high}, {Y: high}}
	for i := range c {
		p.Edges = append(p.Edges, Edge{Line: []r2.Vec{c[i], c[(i+1)%4]}})
	}
	return p
}

func meshArea(m geom.Mesh) float64 {
	sum := 0.0
	for _, t := range m.T {
		sum += r3.Norm(r3.Cross(r3.Sub(m.V[t[1]], m.V[t[0]]), r3.Sub(m.V[t[2]], m.V[t[0]]))) / 2
	}
	return sum
}

// A whole panel keeps its own triangles; what a border or a hole takes away is
// missing to a fraction of a mm², and nothing else is.
func TestTrimmed_hasThePanelsArea(t *testing.T) {
	p := sheet()
	if m := p.Trimmed(); len(m.T) != len(p.Surface.T) || math.Abs(meshArea(m)-200*100) > 1e-6 {
		t.Errorf("a whole panel has %d triangles and %.3f mm², want %d and 20000", len(m.T), meshArea(m), len(p.Surface.T))
	}
	p.Edges[2].Line = []r2.Vec{{X: 200, Y: 61}, {X: 120, Y: 47}, {X: 70, Y: 90}, {Y: 33}} // cut off along a zigzag
	p.Edges[1].Line[1], p.Edges[3].Line[0] = r2.Vec{X: 200, Y: 61}, r2.Vec{Y: 33}
	want := geom.Area(p.Border())
	if m := p.Trimmed(); math.Abs(meshArea(m)-want) > 0.1 {
		t.Errorf("cut to %.1f mm², the panel has %.1f", want, meshArea(m))
	}
	var hole []r2.Vec
	for i := range 40 { // clockwise, as holes run
		sin, cos := math.Sincos(-2 * math.Pi * float64(i) / 40)
		hole = append(hole, r2.Vec{X: 61 + 17*cos, Y: 30 + 17*sin})
	}
	p.Holes = [][]r2.Vec{hole}
	want += geom.Area(hole)
	m := p.Trimmed()
	if math.Abs(meshArea(m)-want) > 0.2 {
		t.Errorf("with a hole %.1f mm² are left, want %.1f", meshArea(m), want)
	}
	if len(m.T) > 300 {
		t.Errorf("%d triangles; the border was cut too finely", len(m.T))
	}
	for _, tri := range m.T {
		c := r3.Scale(1./3, r3.Add(r3.Add(m.V[tri[0]], m.V[tri[1]]), m.V[tri[2]]))
		if at := (r2.Vec{X: c.X, Y: c.Y}); geom.Inside(hole, at) && geom.DistToRing(hole, at) > geom.Detail {
			t.Fatalf("there is foam in the hole at %v", at)
		}
	}
}
