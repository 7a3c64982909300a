package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g ± %g", what, got, want, within)
	}
}

func TestPolyline_arcLengths(t *testing.T) {
	l := []r2.Vec{{}, {X: 3}, {X: 3, Y: 4}}
	near(t, "length", Length(l), 7, 0)
	near(t, "perimeter", Perimeter(l), 12, 0)
	if p := At(l, 5); p != (r2.Vec{X: 3, Y: 2}) {
		t.Errorf("5 mm along is %v", p)
	}
	if At(l, -1) != l[0] || At(l, 99) != l[2] {
		t.Error("beyond its ends a polyline is not held to them")
	}
	if got := Resample(l, 8); len(got) != 8 || got[0] != l[0] || got[7] != l[2] || Dist(got[3], l[1]) > 1e-12 {
		t.Errorf("eight points along are %v", got)
	}
}

func TestBetween_keepsVerticesAndEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := []r2.Vec{{}}
		for range rapid.IntRange(1, 12).Draw(t, "n") {
			d := r2.Vec{X: rapid.Float64Range(0.01, 20).Draw(t, "dx"), Y: rapid.Float64Range(-20, 20).Draw(t, "dy")}
			l = append(l, r2.Add(l[len(l)-1], d))
		}
		whole := Length(l)
		a := rapid.Float64Range(0, whole).Draw(t, "from")
		b := rapid.Float64Range(0, whole).Draw(t, "to")
		part := Between(l, a, b)
		if math.Abs(Length(part)-math.Abs(b-a)) > 3*Coincident {
			t.Fatalf("from %g to %g is %g long", a, b, Length(part))
		}
		if Dist(part[0], At(l, a)) > 2*Coincident || Dist(part[len(part)-1], At(l, b)) > 2*Coincident {
			t.Fatal("the stretch does not end at its two points")
		}
		own := map[r2.Vec]bool{}
		for _, p := range l {
			own[p] = true
		}
		for i := 1; i+1 < len(part); i++ {
			if !own[part[i]] {
				t.Fatalf("%v is no vertex of the line", part[i])
			}
		}
		joined := append(Between(l, 0, a), Between(l, a, whole)[1:]...)
		if joined[0] != l[0] || joined[len(joined)-1] != l[len(l)-1] {
			t.Fatal("two stretches do not make the whole line")
		}
	})
}

func TestBetween_nearAVertex_isThatVertex(t *testing.T) {
	l := []r2.Vec{{}, {X: 0.1}, {X: 0.3}}
	got := Between(l, 0.1+1e-9, 0.3-1e-9)
	if len(got) != 2 || got[0] != l[1] || got[1] != l[2] {
		t.Errorf("%v", got)
	}
}

func TestOffsetRing_growsByTheFormula(t *testing.T) {
	const d = 7.0
	smooth := polygon(720, 100)
	near(t, "growth of a smooth ring", Perimeter(OffsetRing(smooth, d))-Perimeter(smooth), 2*math.Pi*d, 1e-3)
	square := []r2.Vec{{}, {X: 80}, {X: 80, Y: 60}, {Y: 60}}
	near(t, "growth of a square one", Perimeter(OffsetRing(square, d))-Perimeter(square), 8*d, 1e-9)

	// Source: each corner's mitre adds d·tan(fold/2) to both of its edges.
	rapid.Check(t, func(t *rapid.T) {
		var pts []r2.Vec
		for range 12 {
			pts = append(pts, r2.Vec{X: rapid.Float64Range(-90, 90).Draw(t, "x"), Y: rapid.Float64Range(-90, 90).Draw(t, "y")})
		}
		ring := Hull(pts)
		if len(ring) < 3 || Area(ring) < 100 {
			return
		}
		want := 0.0
		for i, p := range ring {
			a, b := r2.Sub(p, ring[(i+len(ring)-1)%len(ring)]), r2.Sub(ring[(i+1)%len(ring)], p)
			fold := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
			if fold > 2.7 || r2.Norm(a) < 1e-3 {
				return
			}
			want += 2 * d * math.Tan(fold/2)
		}
		out := OffsetRing(ring, d)
		if got := Perimeter(out) - Perimeter(ring); math.Abs(got-want) > 1e-6 {
			t.Fatalf("the ring grows by %g, want %g", got, want)
		}
		for i, p := range out {
			if got := DistToRing(ring, p); got < d-1e-9 {
				t.Fatalf("corner %d is %g from the ring", i, got)
			}
		}
	})
}

func TestHull_holdsEveryPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pts []r2.Vec
		for range rapid.IntRange(3, 40).Draw(t, "n") {
			pts = append(pts, r2.Vec{X: float64(rapid.IntRange(-9, 9).Draw(t, "x")), Y: float64(rapid.IntRange(-9, 9).Draw(t, "y"))})
		}
		ring := Hull(pts)
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			for _, p := range pts {
				if len(ring) > 2 && turn(a, b, p) < 0 {
					t.Fatalf("%v is outside the edge %v–%v", p, a, b)
				}
			}
			dir := r2.Vec{X: math.Cos(float64(i)), Y: math.Sin(float64(i))}
			if Support(ring, dir) != Support(pts, dir) {
				t.Fatal("the hull does not reach as far as the points")
			}
		}
	})
}

func TestArea_insideAndCentroid(t *testing.T) {
	l := []r2.Vec{{}, {X: 40}, {X: 40, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 40}, {Y: 40}}
	near(t, "area", Area(l), 700, 0)
	near(t, "area run backwards", Area(Reversed(l)), -700, 0)
	// Two rectangles, 40 × 10 about (20, 5) and 10 × 30 about (5, 25).
	c := Centroid(l)
	near(t, "centroid x", c.X, (400*20+300*5)/700., 1e-12)
	near(t, "centroid y", c.Y, (400*5+300*25)/700., 1e-12)
	for p, want := range map[r2.Vec]bool{{X: 5, Y: 30}: true, {X: 30, Y: 5}: true, {X: 20, Y: 20}: false, {X: -1, Y: 10}: false, {X: 41, Y: 10}: false, {X: 5, Y: 10}: true} {
		if Inside(l, p) != want {
			t.Errorf("%v inside: %v", p, !want)
		}
	}
	if Area(CCW(Reversed(l))) <= 0 {
		t.Error("CCW left a clockwise ring")
	}
	near(t, "distance beside a segment", DistToSegment(r2.Vec{X: 5, Y: 3}, l[0], l[1]), 3, 0)
	near(t, "distance past its end", DistToSegment(r2.Vec{X: 43, Y: -4}, l[0], l[1]), 5, 0)
}

func TestCrossing(t *testing.T) {
	for name, c := range map[string]struct {
		ring []r2.Vec
		bad  bool
	}{
		"square":            {[]r2.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, false},
		"round":             {polygon(500, 40), false},
		"bow tie":           {[]r2.Vec{{}, {X: 1, Y: 1}, {X: 1}, {Y: 1}}, true},
		"spike":             {[]r2.Vec{{}, {X: 1}, {X: 1, Y: 1}, {X: 1, Y: 2}, {X: 1, Y: 1}, {Y: 1}}, true},
		"folded back":       {[]r2.Vec{{}, {X: 2}, {X: 1}, {X: 1, Y: 1}}, true},
		"touching a corner": {[]r2.Vec{{}, {X: 4}, {X: 4, Y: 4}, {X: 2}, {Y: 4}}, true},
		"straight corner":   {[]r2.Vec{{}, {X: 1}, {X: 2}, {X: 2, Y: 1}}, false},
	} {
		if i, j, bad := Crossing(c.ring); bad != c.bad {
			t.Errorf("%s: crossing %v (edges %d and %d)", name, bad, i, j)
		}
	}
}

func TestRigid_fitFindsTheMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Turned(rapid.Float64Range(-3, 3).Draw(t, "angle"), r2.Vec{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: 7})
		from := polygon(7, 60)
		from[0].X = 95
		to := m.ApplyAll(from)
		got, rms := FitRigid(from, to)
		if rms > 1e-9 || math.Abs(got.Angle()-m.Angle()) > 1e-9 {
			t.Fatalf("rms %g, angle %g, want %g", rms, got.Angle(), m.Angle())
		}
		for i, p := range to {
			if Dist(m.Inverse().Apply(p), from[i]) > 1e-9 || Dist(m.Then(m.Inverse()).Apply(p), p) > 1e-9 {
				t.Fatal("the motion back does not lead back")
			}
		}
		mirrored := append([]r2.Vec(nil), to...)
		for i := range mirrored {
			mirrored[i].X = -mirrored[i].X
		}
		if _, rms := FitRigid(from, mirrored); rms < 1 {
			t.Fatal("a mirror image was fitted by a motion")
		}
	})
}

func TestTriangulatePolygon_coversTheArea(t *testing.T) {
	ring := polygon(300, 100)
	ring = append(ring, ring[0]) // repeats a vertex
	hole := Reversed(polygon(60, 30))
	tris, err := TriangulatePolygon(ring, hole)
	if err != nil {
		t.Fatal(err)
	}
	v := append(append([]r2.Vec(nil), ring...), hole...)
	sum := 0.0
	for _, tri := range tris {
		abc := []r2.Vec{v[tri[0]], v[tri[1]], v[tri[2]]}
		if Area(abc) <= 0 {
			t.Fatalf("triangle %v is not counter-clockwise", tri)
		}
		if Dist(Centroid(abc), r2.Vec{}) < 29 {
			t.Fatalf("triangle %v lies in the hole", tri)
		}
		sum += Area(abc)
	}
	near(t, "area", sum, Area(ring)+Area(hole), 1e-6)

	for name, rings := range map[string][][]r2.Vec{
		"bow tie":      {{{}, {X: 1, Y: 1}, {X: 1}, {Y: 1}}},
		"two points":   {{{}, {X: 1, Y: 1}}},
		"hole outside": {polygon(20, 10), {{X: 50}, {X: 60}, {X: 55, Y: 8}}},
		"hole touches": {{{}, {X: 9}, {X: 9, Y: 9}, {Y: 9}}, {{}, {X: 3, Y: 1}, {X: 1, Y: 3}}},
	} {
		if _, err := TriangulatePolygon(rings[0], rings[1:]...); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
