package flatten

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func reasonOf(t *testing.T, err error) Reason {
	t.Helper()
	var why *Refusal
	if !errors.As(err, &why) {
		t.Fatalf("%v; want a refusal", err)
	}
	for _, word := range []string{"near ", "mm", "cut it"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q does not say %q", err, word)
		}
	}
	return why.Reason
}

func TestSolve_crumpledBorder_isRefused(t *testing.T) {
	// Without its brace the border of a strong saddle buckles.
	c := saddle("saddle", 0.005, 8)
	p, v := c.prepare(t), c.vertices()
	tri, _ := p.atRest(v)
	st, _ := p.begin(tri, p.BorderLengths(v))
	s := newSolver(p.plain, tri, p.loop, p.BorderLengths(v), st.z)
	s.run()
	if !s.settled {
		t.Fatal("not settled")
	}
	if got := reasonOf(t, p.refuse(v, p.formed(tri, st, s), st, s)); got != Crinkled {
		t.Errorf("reason %d, want that it crumples", got)
	}
	if _, err := p.Solve(v, nil); err != nil {
		t.Errorf("braced: %v", err)
	}
}

func TestSolve_needleRow_isRefused(t *testing.T) {
	// 32 edges in 2.7 mm at the tip of a gore of 180°: no stable shape.
	c := ball("half", 180, 0, 89.5, 33, 33)
	_, err := c.prepare(t).Solve(c.vertices(), nil)
	if got := reasonOf(t, err); got != NotFlat {
		t.Errorf("reason %d, want that it cannot be flattened", got)
	}
}

func TestRefuse_doubtOrTurnedTriangle_isSeen(t *testing.T) {
	c := calf(10, 8)
	p, v := c.prepare(t), c.vertices()
	tri, _ := p.atRest(v)
	st, _ := p.begin(tri, p.BorderLengths(v))
	s := newSolver(p.plain, tri, p.loop, p.BorderLengths(v), st.z)
	s.run()
	if err := p.refuse(v, p.formed(tri, st, s), st, s); err != nil {
		t.Fatal(err)
	}
	doubtful := p.formed(tri, st, s)
	doubtful.Certified = false
	if got := reasonOf(t, p.refuse(v, doubtful, st, s)); got != NotFlat {
		t.Errorf("reason %d for a panel that may be no minimum", got)
	}
	inside := p.place[3*8+4]
	s.z[inside] += 100i
	if got := reasonOf(t, p.refuse(v, p.formed(tri, st, s), st, s)); got != Folded {
		t.Errorf("reason %d, want that a part is turned over", got)
	}
}

func TestKink_zigzag_isMeasured(t *testing.T) {
	var ring []r2.Vec
	for k := range 36 {
		s, c := math.Sincos(float64(k) * 10 * degree)
		ring = append(ring, r2.Vec{X: 100 * c, Y: 100 * s})
	}
	shell := make([]float64, 36)
	for k := range shell {
		shell[k] = 10 * degree
	}
	if _, jump := kink(ring, shell); jump > 1e-9 {
		t.Errorf("a circle has a kink of %g", jump)
	}
	// One vertex moved out by the height that turns its edges by 5° more each:
	// it turns 10° more, its neighbours 5° less.
	edge := 200 * math.Sin(5*degree)
	ring[7] = r2.Scale(1+edge*math.Cos(5*degree)*(math.Tan(10*degree)-math.Tan(5*degree))/100, ring[7])
	at, jump := kink(ring, shell)
	near(t, "kink", jump/degree, 15, 1e-6)
	if at != 7 && at != 8 {
		t.Errorf("the kink is seen at vertex %d, not at 7", at)
	}
}

func TestBrace_ring_bendsLikeARod(t *testing.T) {
	// Source: a rod of stiffness 2b that is straight at rest, bent to a circle of
	// radius R, holds b·∮κ² ds = b·2π/R.
	const n, radius, b = 400, 80.0, 7.0
	loop, want, turn := make([]int, n), make([]float64, n), make([]float64, n)
	z, force := make([]complex128, n), make([]complex128, n)
	for k := range n {
		loop[k], z[k] = k, radius*unit(2*math.Pi*float64(k)/n)
		want[k] = 2 * radius * math.Sin(math.Pi/n)
	}
	s := newBrace(loop, want, turn, b)
	near(t, "energy of the ring", s.energy(z)/(b*2*math.Pi/radius), 1, 1e-3)
	z[11] += 0.3 + 0.1i
	s.addForce(z, force)
	for _, k := range []int{9, 11, 13} {
		for _, d := range []complex128{1, 1i} {
			const h = 1e-4
			at := z[k]
			z[k] = at + h*d
			up := s.energy(z)
			z[k] = at - h*d
			slope := (up - s.energy(z)) / (2 * h)
			z[k] = at
			near(t, "force", dot(force[k], d)/slope, 1, 1e-6)
		}
	}
}

func TestStiffBorder_isTheCompressionOverALength(t *testing.T) {
	// b = compression·(ℓ/2π)², ℓ a fifth of the panel's size: a rod of stiffness
	// 2b buckles in waves of about ℓ.
	loop, want := []int{0, 1, 2}, []float64{10, 10, 10}
	s := stiffBorder(loop, want, make([]float64, 3), []float64{3, -0.5, 2}, 2500, 5)
	ell := 0.2 * 50 / (2 * math.Pi)
	near(t, "b", s.weight[1]*(10+10)/4, 0.5*ell*ell, 1e-12)
	if stiffBorder(loop, want, make([]float64, 3), []float64{3, 0, 2}, 2500, 5) != nil {
		t.Error("a border in tension is braced")
	}
}

func TestStrain_anyMap_isTheSingularValues(t *testing.T) {
	// Source: gonum's singular value decomposition.
	rapid.Check(t, func(t *rapid.T) {
		draw := func() float64 { return rapid.Float64Range(-2, 2).Draw(t, "part") }
		a, b := complex(draw(), draw()), complex(draw(), draw())/4
		if abs(a) < abs(b)+0.01 || abs(b) < 0.01 {
			t.Skip("turned over, or the same in all directions")
		}
		// a·w + b·conj(w) as a matrix.
		m := mat.NewDense(2, 2, []float64{real(a) + real(b), imag(b) - imag(a), imag(a) + imag(b), real(a) - real(b)})
		var svd mat.SVD
		if !svd.Factorize(m, mat.SVDFull) {
			t.Fatal("no decomposition")
		}
		var u mat.Dense
		svd.UTo(&u)
		s, want := strain(a, b), svd.Values(nil)
		if math.Abs(s.Long-want[0]) > 1e-12 || math.Abs(s.Short-want[1]) > 1e-12 {
			t.Fatalf("strain %v, singular values %v", s, want)
		}
		if along := s.Along.X*u.At(0, 1) + s.Along.Y*u.At(1, 1); math.Abs(math.Abs(along)-1) > 1e-9 {
			t.Fatalf("stretched along %v, want (%g, %g)", s.Along, u.At(0, 1), u.At(1, 1))
		}
	})
}
