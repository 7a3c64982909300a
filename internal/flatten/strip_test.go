package flatten

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// checkFlat holds a strip to what every strip promises: each triangle keeps its
// sides and lies counter-clockwise, and each edge of the rails and both ends are
// there.
func checkFlat(t rapid.TB, s Strip) {
	t.Helper()
	space, plane := s.Vertices(), s.Unroll().Vertices()
	if want := len(s.P) + len(s.Q) - 2; len(s.T) > want {
		t.Fatalf("%d triangles between rails of %d and %d points, want %d at most", len(s.T), len(s.P), len(s.Q), want)
	}
	edges := map[[2]int]bool{}
	for k, tri := range s.T {
		for c := range 3 {
			a, b := tri[c], tri[(c+1)%3]
			edges[[2]int{a, b}] = true
			want, got := geom.Dist(space[a], space[b]), geom.Dist(plane[a], plane[b])
			if math.Abs(got-want) > 1e-9*want {
				t.Fatalf("triangle %d: edge %d–%d is %.12f mm in space and %.12f flat", k, a, b, want, got)
			}
		}
		if a := geom.Area([]r2.Vec{plane[tri[0]], plane[tri[1]], plane[tri[2]]}); a <= 0 {
			t.Fatalf("triangle %d has area %g in the plane", k, a)
		}
	}
	m := len(s.P)
	for i := 1; i < m; i++ {
		if a, b := s.twin(i-1), s.twin(i); !edges[[2]int{i - 1, i}] && !edges[[2]int{a, b}] {
			t.Fatalf("edge %d of the first rail belongs to no triangle", i)
		}
	}
	for j := 1; j < len(s.Q); j++ {
		a, b := m+j, m+j-1
		if !edges[[2]int{a, b}] && !edges[[2]int{s.twin(a), b}] && !edges[[2]int{a, s.twin(b)}] {
			t.Fatalf("edge %d of the second rail belongs to no triangle", j)
		}
	}
}

// wavyRails draws two rails that run side by side over a bent, twisted sheet.
func wavyRails(t *rapid.T) (p, q []r3.Vec) {
	bend := rapid.Float64Range(0, 2.5).Draw(t, "bend")
	twist := rapid.Float64Range(-0.3, 0.3).Draw(t, "twist")
	wave := rapid.Float64Range(0, 8).Draw(t, "wave")
	rail := func(n int, y, phase float64) (out []r3.Vec) {
		for i := range n {
			u := float64(i) / float64(n-1)
			s, c := math.Sincos(bend * u)
			r := 100 + wave*math.Sin(5*u+phase) + twist*y
			out = append(out, r3.Vec{X: r * s, Y: y + wave*math.Cos(4*u+phase), Z: r*c + 300*u*boolTo(bend < 0.5)})
		}
		return out
	}
	q = rail(rapid.IntRange(3, 40).Draw(t, "n"), 60, 1)
	p = geom.Reversed(rail(rapid.IntRange(3, 40).Draw(t, "m"), -10, 0))
	return p, geom.Reversed(q)
}

func boolTo(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func TestTriangulate_anyRails_keepEveryLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := wavyRails(t)
		if s, err := Triangulate(p, q); err == nil {
			checkFlat(t, s)
		} else if !strings.Contains(err.Error(), "folds back") {
			t.Fatal(err)
		}
	})
}

func TestTriangulate_bandAndWhole_agree(t *testing.T) {
	// The narrow search must find what the whole one finds.
	for _, s := range []ruled{frustum(), cylinder(), tangents(), gore(8)} {
		p, q, _ := s.sample(80, 60)
		strip, err := Triangulate(p, q)
		if err != nil {
			t.Fatal(err)
		}
		checkFlat(t, strip)
		l := newLattice(p, q)
		l.limit(1)
		end, ok := l.solve()
		if !ok || !reflect.DeepEqual(l.triangles(end), strip.T) {
			t.Errorf("%s: the band's strip costs %g, the whole lattice's %g", s.name, strip.Cost, l.cost(end))
		}
	}
}

func TestTriangulate_cost_isTheLeastOfAll(t *testing.T) {
	// Source: every way of joining two short rails, tried one by one.
	rapid.Check(t, func(t *rapid.T) {
		var p, q []r3.Vec
		for i := range 4 {
			dz := rapid.Float64Range(-4, 4).Draw(t, "z")
			p = append(p, r3.Vec{X: 10 * float64(i), Z: dz})
		}
		for i := range 5 {
			dz := rapid.Float64Range(-4, 4).Draw(t, "z")
			q = append(q, r3.Vec{X: 8 * float64(i), Y: 15, Z: dz})
		}
		least := math.Inf(1)
		everyStrip(len(p), len(q), func(tris [][3]int) { least = min(least, bending(p, q, tris)) })
		s, err := Triangulate(p, q)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Cost-least) > 1e-6 || math.Abs(bending(p, q, s.T)-least) > 1e-6 {
			t.Fatalf("the strip says it costs %g and costs %g; the least is %g", s.Cost, bending(p, q, s.T), least)
		}
	})
}

// everyStrip visits all strips between rails of m and n points.
func everyStrip(m, n int, visit func([][3]int)) {
	var step func(i, j int, tris [][3]int)
	step = func(i, j int, tris [][3]int) {
		if i == m-1 && j == n-1 {
			visit(tris)
		}
		if i < m-1 {
			step(i+1, j, append(tris[:len(tris):len(tris)], [3]int{i, i + 1, m + j}))
		}
		if j < n-1 {
			step(i, j+1, append(tris[:len(tris):len(tris)], [3]int{i, m + j + 1, m + j}))
		}
	}
	step(0, 0, nil)
}

// bending is Σ |rung|·θ² of a strip, straight from its definition.
func bending(p, q []r3.Vec, tris [][3]int) float64 {
	v := Strip{P: p, Q: q}.Vertices()
	unit := func(t [3]int) r3.Vec {
		return r3.Unit(r3.Cross(r3.Sub(v[t[1]], v[t[0]]), r3.Sub(v[t[2]], v[t[0]])))
	}
	sum := 0.0
	for k := 1; k < len(tris); k++ {
		a, b := unit(tris[k-1]), unit(tris[k])
		theta := math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b))
		if theta > math.Pi/2 {
			return math.Inf(1)
		}
		i, j := 0, 0 // the rung where the two triangles meet: the furthest of both rails
		for _, t := range tris[:k] {
			for _, c := range t {
				if c < len(p) {
					i = max(i, c)
				} else {
					j = max(j, c)
				}
			}
		}
		sum += r3.Norm(r3.Sub(v[i], v[max(j, len(p))])) * theta * theta
	}
	return sum
}

func TestTriangulate_sharedEnds(t *testing.T) {
	// A leaf: both rails from one point to another, over a cylinder.
	var p, q []r3.Vec
	for i := range 31 {
		u := float64(i) / 30
		w := 20 * math.Sin(math.Pi*u)
		if i == 30 {
			w = 0
		}
		s, c := math.Sincos(u)
		p = append(p, r3.Vec{X: 100 * s, Y: -w, Z: 100 * c})
		q = append(q, r3.Vec{X: 100 * s, Y: w, Z: 100 * c})
	}
	strip, err := Triangulate(p, q)
	if err != nil {
		t.Fatal(err)
	}
	checkFlat(t, strip)
	f := strip.Unroll()
	if n := len(f.Outline()); n != 60 {
		t.Errorf("the outline has %d points, want 60: shared points stand once", n)
	}
	near(t, "length of the leaf", geom.Dist(f.P[0], f.P[30]), 100, 0.02)
	mirrored := Strip{P: q, Q: p} // as a caller numbers a mirror image
	for _, tri := range strip.T {
		image := func(v int) int { return (v + 31) % 62 }
		mirrored.T = append(mirrored.T, [3]int{image(tri[0]), image(tri[2]), image(tri[1])})
	}
	for i := range mirrored.P {
		mirrored.P[i].Y, mirrored.Q[i].Y = -mirrored.P[i].Y, -mirrored.Q[i].Y
	}
	if g := mirrored.Unroll(); g.P[30] != g.Q[30] || g.P[0] != g.Q[0] || math.Abs(geom.Dist(g.P[0], g.P[30])-geom.Dist(f.P[0], f.P[30])) > 1e-9 {
		t.Errorf("the mirrored leaf's ends are %v %v and %v %v", g.P[0], g.Q[0], g.P[30], g.Q[30])
	}
}

func TestFlat_outline_isCounterClockwise(t *testing.T) {
	for _, s := range []ruled{frustum(), cylinder(), tangents(), gore(8)} {
		p, q, _ := s.sample(30, 25)
		strip, err := Triangulate(p, q)
		if err != nil {
			t.Fatal(err)
		}
		ring := strip.Unroll().Outline()
		if geom.Area(ring) <= 0 {
			t.Errorf("%s: the outline is clockwise", s.name)
		}
		if i, j, crosses := geom.Crossing(ring); crosses {
			t.Errorf("%s: edges %d and %d of the outline cross", s.name, i, j)
		}
	}
}

func TestTriangulate_badRails_areErrors(t *testing.T) {
	a, b, c := r3.Vec{}, r3.Vec{X: 10}, r3.Vec{X: 20}
	for name, rails := range map[string][2][]r3.Vec{
		"no points":        {{}, {a, b}},
		"two single":       {{a}, {b}},
		"a repeated point": {{a, b, b}, {r3.Vec{Y: 5}, c}},
		"not a number":     {{a, {X: math.NaN()}}, {{Y: 5}, {X: 10, Y: 5}}},
		"one line":         {{a, b}, {c, {X: 30}}},
		"the same rail":    {{a, b, c}, {a, b, c}},
	} {
		if _, err := Triangulate(rails[0], rails[1]); err == nil {
			t.Errorf("%s: no error", name)
		} else if !strings.HasPrefix(err.Error(), "joining two rails") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTriangulate_twice_isTheSame(t *testing.T) {
	p, q, _ := tangents().sample(90, 70)
	a, _ := Triangulate(p, q)
	b, _ := Triangulate(p, q)
	if !reflect.DeepEqual(a, b) || !reflect.DeepEqual(a.Unroll(), b.Unroll()) {
		t.Error("the same rails gave two strips")
	}
}

func TestJoin_makesASymmetricTrapezoid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		length := draw(20, 300, "length")
		edge := func(name string) [2]r2.Vec {
			m := geom.Turned(draw(-3, 3, name), r2.Vec{X: draw(-50, 50, name), Y: draw(-50, 50, name)})
			return [2]r2.Vec{m.Apply(r2.Vec{}), m.Apply(r2.Vec{X: length})}
		}
		laid, next := edge("laid"), edge("next")
		g0, g1 := draw(-5, 5, "start"), draw(-5, 5, "end")
		m := Join(laid, next, g0, g1)
		s, e := m.Apply(next[0]), m.Apply(next[1])
		base0, base1 := r2.Sub(s, laid[0]), r2.Sub(e, laid[1])
		if math.Abs(r2.Norm(base0)-math.Abs(g0)) > 1e-9 || math.Abs(r2.Norm(base1)-math.Abs(g1)) > 1e-9 {
			t.Fatalf("gaps %g and %g, want %g and %g", r2.Norm(base0), r2.Norm(base1), g0, g1)
		}
		if math.Abs(r2.Cross(base0, base1)) > 1e-9 {
			t.Fatal("the bases are not parallel")
		}
		if d := geom.Dist(s, laid[1]) - geom.Dist(e, laid[0]); math.Abs(d) > 1e-9 {
			t.Fatalf("the diagonals differ by %g", d)
		}
		right := r2.Cross(r2.Sub(laid[1], laid[0]), base0) < 0
		if math.Abs(g0) > 1e-6 && right != (g0 > 0) {
			t.Fatal("the next run is on the wrong side")
		}
	})
}

func BenchmarkTriangulate400(b *testing.B) { benchmark(b, 400) }
func BenchmarkTriangulate100(b *testing.B) { benchmark(b, 100) }

func benchmark(b *testing.B, n int) {
	p, q, _ := cylinder().sample(n, n)
	for b.Loop() {
		if _, err := Triangulate(p, q); err != nil {
			b.Fatal(err)
		}
	}
}
