package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestSlice_ball_isACircle(t *testing.T) {
	m := ball(100, 40)
	near(t, "volume of the test's ball", volume(m)/(4./3*math.Pi*1e6), 1, 0.01)
	for _, h := range []float64{0, 30, -77.7} {
		segments := Slice(m, r3.Vec{Y: h}, r3.Vec{Y: 1})
		lines := Chain(segments)
		if len(lines) != 1 || lines[0][0] != lines[0][len(lines[0])-1] {
			t.Fatalf("at %g the ball is cut into %d lines", h, len(lines))
		}
		near(t, "girth", Length(lines[0]), 2*math.Pi*math.Sqrt(1e4-h*h), 3)
		var flat []r2.Vec // seen from the tip of y, z to the right and x up
		for _, p := range lines[0] {
			near(t, "height of the cut", p.Y, h, 1e-9)
			flat = append(flat, r2.Vec{X: p.Z, Y: p.X})
		}
		if Area(flat) <= 0 {
			t.Errorf("at %g the inside is on the right", h)
		}
	}
	if s := Slice(m, r3.Vec{Y: 101}, r3.Vec{Y: 1}); len(s) != 0 {
		t.Errorf("a plane above the ball cuts %d triangles", len(s))
	}
}

func TestChain_openMesh_startsAtTheRim(t *testing.T) {
	m := ball(50, 12)
	m.T = m.T[:len(m.T)/2] // part of the ball: its cuts are open
	whole, joined := 0, 0
	for _, line := range Chain(Slice(m, r3.Vec{}, r3.Vec{X: 0.1, Y: 1})) {
		joined += len(line) - 1
		whole++
	}
	if n := len(Slice(m, r3.Vec{}, r3.Vec{X: 0.1, Y: 1})); joined != n || whole != 1 {
		t.Errorf("%d of %d segments stand in %d lines, want one", joined, n, whole)
	}
}

func TestVertexNormals_pointOutwards(t *testing.T) {
	m := ball(100, 30)
	for i, n := range VertexNormals(m) {
		if d := r3.Norm(r3.Sub(n, r3.Scale(0.01, m.V[i]))); d > 0.01 {
			t.Fatalf("the normal at %v is %v", m.V[i], n)
		}
	}
	// At a box's corner the three faces count alike, however they are divided.
	for _, n := range VertexNormals(box(r3.Vec{X: 1, Y: 2, Z: 3})) {
		for _, x := range []float64{n.X, n.Y, n.Z} {
			near(t, "part of a corner's normal", math.Abs(x), 1/math.Sqrt(3), 1e-12)
		}
	}
	near(t, "radius moved out", r3.Norm(Offset(m, func(r3.Vec) float64 { return 5 }).V[77]), 105, 0.01)
}

func TestDistance_box_isExact(t *testing.T) {
	size := r3.Vec{X: 30, Y: 40, Z: 50}
	l := NewLocator(box(size))
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(-40, 90).Draw(t, name) }
		p := r3.Vec{X: draw("x"), Y: draw("y"), Z: draw("z")}
		// Source: the distance to a box in closed form.
		q := r3.Vec{X: math.Abs(p.X-15) - 15, Y: math.Abs(p.Y-20) - 20, Z: math.Abs(p.Z-25) - 25}
		want := r3.Norm(upper(q, r3.Vec{})) + min(max(q.X, q.Y, q.Z), 0)
		got, at := l.Distance(p)
		if math.Abs(got-want) > 1e-9 || math.Abs(Dist(p, at)-math.Abs(got)) > 1e-9 {
			t.Fatalf("%v is %g from the box at %v, want %g", p, got, at, want)
		}
	})
}

func TestLocator_agreesWithTryingAll(t *testing.T) {
	m := ball(100, 16)
	m.Append(box(r3.Vec{X: 300, Y: 20, Z: 20}))
	l := NewLocator(m)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, by float64) float64 { return rapid.Float64Range(-by, by).Draw(t, name) }
		p := r3.Vec{X: draw("x", 300), Y: draw("y", 200), Z: draw("z", 200)}
		dir := r3.Vec{X: draw("dx", 1), Y: draw("dy", 1), Z: draw("dz", 1)}
		least, first := math.Inf(1), math.Inf(1)
		r := ray{o: p, d: dir}
		for _, tri := range m.T {
			a, b, c := m.V[tri[0]], m.V[tri[1]], m.V[tri[2]]
			least = min(least, Dist(p, nearestOnTriangle(p, a, b, c)))
			if at, ok := r.meets(a, b, c); ok {
				first = min(first, at)
			}
		}
		if d, _ := l.Distance(p); math.Abs(math.Abs(d)-least) > 1e-9 {
			t.Fatalf("the nearest point is %g away, the locator says %g", least, d)
		}
		if l.Away(p) > least {
			t.Fatalf("the nearest point is %g away, the box round it %g", least, l.Away(p))
		}
		at, _, ok := l.Hit(p, dir)
		if ok == math.IsInf(first, 1) || ok && at != first {
			t.Fatalf("the ray first meets the mesh at %g, the locator says %g (%v)", first, at, ok)
		}
	})
}

func TestDistance_ball_signAndSize(t *testing.T) {
	l := NewLocator(ball(100, 60))
	for _, r := range []float64{10, 60, 99, 101, 150} {
		for k := range 50 {
			s, c := math.Sincos(float64(k))
			y := math.Cos(float64(3 * k))
			p := r3.Scale(r, r3.Unit(r3.Vec{X: s, Y: y, Z: c}))
			d, _ := l.Distance(p)
			near(t, "distance to the ball", d, r-100, 0.15)
			if at, _, ok := l.Hit(r3.Vec{}, p); !ok || math.Abs(at*r-100) > 0.15 {
				t.Errorf("a ray from the centre leaves the ball at %g (%v)", at*r, ok)
			}
		}
	}
	if d, _ := NewLocator(Mesh{}).Distance(r3.Vec{}); !math.IsInf(d, 1) {
		t.Errorf("an empty mesh is %g away", d)
	}
}

func TestNearestOnTriangle_isNearest(t *testing.T) {
	// Source: points spread over the triangle, tried one by one.
	a, b, c := r3.Vec{}, r3.Vec{X: 10, Z: 3}, r3.Vec{X: 4, Y: 9}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(-20, 20).Draw(t, name) }
		p := r3.Vec{X: draw("x"), Y: draw("y"), Z: draw("z")}
		got := nearestOnTriangle(p, a, b, c)
		w := Barycentric(got, a, b, c)
		if min(w[0], w[1], w[2]) < -1e-9 {
			t.Fatalf("%v lies outside the triangle, weights %v", got, w)
		}
		for i := range 41 {
			for j := range 41 - i {
				u, v := float64(i)/40, float64(j)/40
				q := r3.Add(a, r3.Add(r3.Scale(u, r3.Sub(b, a)), r3.Scale(v, r3.Sub(c, a))))
				if Dist(p, q) < Dist(p, got)-1e-9 {
					t.Fatalf("%v is nearer than %v", q, got)
				}
			}
		}
	})
}

// Source: the distance from a ball, to what its triangles cut off.
func TestNearer_isTheLesser(t *testing.T) {
	l := NewLocator(ball(100, 60))
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(-140, 140).Draw(t, name) }
		p, nearest := r3.Vec{X: draw("x"), Y: draw("y"), Z: draw("z")}, draw("nearest")
		want, _ := l.Distance(p)
		if got := l.Nearer(p, nearest); got != min(want, nearest) {
			t.Fatalf("at %v, %g from the ball, the lesser of that and %g is %g", p, r3.Norm(p)-100, nearest, got)
		}
		if got := l.NearerOutside(p, nearest); want > 0 && got != min(want, nearest) {
			t.Fatalf("at %v, outside and %g from the ball, the lesser of that and %g is %g", p, r3.Norm(p)-100, nearest, got)
		}
		if got := l.Nearer(p, math.Inf(1)); math.Abs(got-(r3.Norm(p)-100)) > 0.15 {
			t.Fatalf("%v is %g from the ball", p, got)
		}
	})
}

func BenchmarkDistance(b *testing.B) {
	l := NewLocator(ball(100, 100)) // 39 600 triangles
	i := 0.0
	for b.Loop() {
		i++
		l.Distance(r3.Vec{X: 110 * math.Sin(i), Y: 60 * math.Sin(1.7*i), Z: 110 * math.Cos(i)})
	}
}

func BenchmarkSlice(b *testing.B) {
	m := ball(100, 100)
	for b.Loop() {
		Slice(m, r3.Vec{Y: 13}, r3.Vec{Y: 1})
	}
}

func BenchmarkNewLocator(b *testing.B) {
	m := ball(100, 40) // 6 240 triangles
	for b.Loop() {
		NewLocator(m)
	}
}

func BenchmarkHit(b *testing.B) {
	l := NewLocator(ball(100, 100))
	i := 0.0
	for b.Loop() {
		i++
		l.Hit(r3.Vec{X: 60 * math.Sin(i), Y: 60 * math.Sin(1.7*i), Z: 20}, r3.Vec{X: math.Sin(2.1 * i), Y: math.Sin(1.3 * i), Z: math.Cos(i)})
	}
}
