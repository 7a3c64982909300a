package flatten

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestPrepare_badTriangles_saysWhatIsWrong(t *testing.T) {
	ring := [][3]int{{0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5}}
	for _, c := range []struct {
		name, says string
		n          int
		t          [][3]int
	}{
		{"none", "no triangles", 3, nil},
		{"a point that is not there", "points are 0 to 2", 3, [][3]int{{0, 1, 3}}},
		{"a point twice", "one point twice", 3, [][3]int{{0, 1, 1}}},
		{"turned over", "turned different ways", 4, [][3]int{{0, 1, 2}, {1, 2, 3}}},
		{"a loose point", "hang together", 4, [][3]int{{0, 1, 2}}},
		{"two parts", "more than one border", 6, [][3]int{{0, 1, 2}, {3, 4, 5}}},
		{"a pinch", "touches itself", 5, [][3]int{{0, 1, 2}, {2, 3, 4}}},
		{"a hole", "hole", 6, ring},
		{"closed", "no border", 4, [][3]int{{0, 1, 2}, {0, 2, 3}, {0, 3, 1}, {1, 3, 2}}},
	} {
		if _, err := Prepare(c.n, c.t); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want %q", c.name, err, c.says)
		}
	}
}

func TestSolve_badInput_saysWhatIsWrong(t *testing.T) {
	c := ball("gore", 45, 0, 60, 5, 4)
	p, v := c.prepare(t), c.vertices()
	with := func(i int, at r3.Vec) []r3.Vec {
		out := append([]r3.Vec(nil), v...)
		out[i] = at
		return out
	}
	long := p.BorderLengths(v)
	long[3] = 1e6
	short := p.BorderLengths(v)
	short[2] = 0
	for _, c := range []struct {
		name, says string
		v          []r3.Vec
		length     []float64
	}{
		{"too few points", "prepared for 20 points", v[:19], nil},
		{"not a number", "not a place", with(7, r3.Vec{X: math.NaN()}), nil},
		{"no area", "no area", with(7, v[6]), nil},
		{"too few lengths", "lengths", v, []float64{1}},
		{"no length", "above 0", v, short},
		{"one edge too long", "does not close", v, long},
	} {
		if _, err := p.Solve(c.v, c.length); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want %q", c.name, err, c.says)
		}
	}
}

func TestSolve_shuffledMesh_givesTheSamePanel(t *testing.T) {
	c := calf(28, 20)
	p, v, f := solve(t, c)
	perm := rand.New(rand.NewPCG(1, 2)).Perm(len(v))
	moved := make([]r3.Vec, len(v))
	for i, to := range perm {
		moved[to] = v[i]
	}
	tris := GridRows(c.rows, c.cols).Triangles()
	for k, tri := range tris {
		tris[k] = [3]int{perm[tri[1]], perm[tri[2]], perm[tri[0]]}
	}
	q, err := Prepare(len(v), tris)
	if err != nil {
		t.Fatal(err)
	}
	g, err := q.Solve(moved, nil)
	if err != nil {
		t.Fatal(err)
	}
	back := append(f.Flat[:0:0], f.Flat...)
	for i, to := range perm {
		back[i] = g.Flat[to]
	}
	if off := farthest(f.Flat, back); off > 1e-7 {
		t.Errorf("the shuffled panel differs by %g mm", off)
	}
	t.Logf("work of a factor: %d in rows, %d shuffled and put in order again", p.plain.work(), q.plain.work())
	if q.plain.work() > 2*p.plain.work() {
		t.Errorf("shuffling makes %d of %d units of work", q.plain.work(), p.plain.work())
	}
}

// anyPanel draws a smooth panel that curves both ways.
func anyPanel(t *rapid.T) panel {
	coef := make([]float64, 6)
	for i := range coef {
		coef[i] = rapid.Float64Range(-10, 10).Draw(t, "coef")
	}
	wide, high := rapid.Float64Range(80, 200).Draw(t, "wide"), rapid.Float64Range(80, 200).Draw(t, "high")
	return panel{"any", rapid.IntRange(11, 18).Draw(t, "rows"), rapid.IntRange(11, 18).Draw(t, "cols"), func(u, v float64) r3.Vec {
		x, y := 2*u-1, 2*v-1
		z := coef[0]*x*x + coef[1]*x*y + coef[2]*y*y + coef[3]*x*x*y + coef[4]*math.Sin(2*x) + coef[5]*math.Cos(3*y)
		return r3.Vec{X: wide * u, Y: high * v, Z: z}
	}}
}

func TestSolve_anyPanel_keepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyPanel(t)
		p, err := Prepare(c.rows*c.cols, GridRows(c.rows, c.cols).Triangles())
		if err != nil {
			t.Fatal(err)
		}
		v := c.vertices()
		f, err := p.Solve(v, nil)
		if err != nil {
			t.Fatal(err)
		}
		checkBorder(t, c.name, p, f, p.BorderLengths(v))
		for k, tri := range p.t {
			a, b, c := f.Flat[tri[0]], f.Flat[tri[1]], f.Flat[tri[2]]
			sides := geom.Area([]r2.Vec{a, b, c})
			_, area, _ := lay(v[tri[0]], v[tri[1]], v[tri[2]])
			if s := f.Strain[k]; math.Abs(s.Long*s.Short-sides/area) > 1e-9 {
				t.Fatalf("triangle %d: strains %v, area grows %g times", k, s, sides/area)
			}
		}
		free, err := p.SolveFree(v)
		if err != nil {
			t.Fatalf("with a free border: %v", err)
		}
		if free.Energy > f.Energy*(1+1e-9) {
			t.Fatalf("energy %g with a free border, %g with a held one", free.Energy, f.Energy)
		}
	})
}

// symmetric draws a positive definite matrix in an envelope, dense as well.
func symmetric(t *rapid.T) (*matrix, *mat.SymDense) {
	n := rapid.IntRange(1, 14).Draw(t, "pairs")
	first := make([]int, n)
	for r := range first {
		first[r] = rapid.IntRange(0, r).Draw(t, "first")
	}
	m, dense := newMatrix(newEnvelope(first)), mat.NewSymDense(2*n, nil)
	for r := range n {
		for c := first[r]; c <= r; c++ {
			b := [4]float64{}
			for i := range b {
				b[i] = rapid.Float64Range(-1, 1).Draw(t, "entry")
			}
			if r == c {
				b[0], b[3], b[1] = b[0]+4*float64(n), b[3]+4*float64(n), b[2]
			}
			m.add(r, c, b[0], b[1], b[2], b[3])
			for i, x := range b {
				dense.SetSym(2*r+i/2, 2*c+i%2, x)
			}
		}
	}
	return m, dense
}

func TestMatrix_solve_agreesWithGonum(t *testing.T) {
	// Source: gonum's dense Cholesky.
	rapid.Check(t, func(t *rapid.T) {
		m, dense := symmetric(t)
		n, _ := dense.Dims()
		b := mat.NewVecDense(n, nil)
		for i := range n {
			b.SetVec(i, rapid.Float64Range(-10, 10).Draw(t, "right"))
		}
		var chol mat.Cholesky
		var want mat.VecDense
		if !chol.Factorize(dense) || chol.SolveVecTo(&want, b) != nil {
			t.Fatal("the made-up matrix is not positive definite")
		}
		if !m.factor() {
			t.Fatal("a positive definite matrix was refused")
		}
		m.solve(b.RawVector().Data)
		for i := range n {
			if d := math.Abs(b.AtVec(i) - want.AtVec(i)); !(d < 1e-12) {
				t.Fatalf("unknown %d is %g, want %g", i, b.AtVec(i), want.AtVec(i))
			}
		}
	})
}

func TestMatrix_indefinite_isRefused(t *testing.T) {
	m := newMatrix(newEnvelope([]int{0, 0}))
	m.add(0, 0, 1, 0, 0, 1)
	m.add(1, 0, 2, 0, 0, 0)
	m.add(1, 1, 1, 0, 0, 1)
	if m.factor() {
		t.Error("1 2; 2 1 was taken for positive definite")
	}
}

func gore1000() panel { return ball("gore", 45, 0, 60, 25, 23) }
func gore2000() panel { return ball("gore", 45, 0, 60, 34, 31) }
func gore3000() panel { return ball("gore", 45, 0, 60, 40, 39) }

func benchmarkSolve(b *testing.B, c panel) {
	p, v := c.prepare(b), c.vertices()
	b.ReportMetric(float64(len(p.t)), "triangles")
	for b.Loop() {
		if _, err := p.Solve(v, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolve1000(b *testing.B)  { benchmarkSolve(b, gore1000()) }
func BenchmarkSolve2000(b *testing.B)  { benchmarkSolve(b, gore2000()) }
func BenchmarkSolve3000(b *testing.B)  { benchmarkSolve(b, gore3000()) }
func BenchmarkSolve10000(b *testing.B) { benchmarkSolve(b, ball("gore", 45, 0, 60, 73, 70)) }
func BenchmarkSolveSaddle2000(b *testing.B) {
	benchmarkSolve(b, saddle("saddle", 0.0025, 32))
}

func BenchmarkPrepare2000(b *testing.B) {
	c := gore2000()
	for b.Loop() {
		c.prepare(b)
	}
}

// The factor alone, against gonum's band Cholesky on the same matrix.
func assembled(b *testing.B) *solver {
	c := gore3000()
	p, v := c.prepare(b), c.vertices()
	tri, _ := p.atRest(v)
	st, _ := p.begin(tri, p.BorderLengths(v))
	s := newSolver(p.plain, tri, p.loop, p.BorderLengths(v), st.z)
	s.look()
	s.assemble(true)
	return s
}

func BenchmarkFactor3000(b *testing.B) {
	s := assembled(b)
	val := append([]float64(nil), s.m.val...)
	for b.Loop() {
		copy(s.m.val, val)
		if !s.m.factor() {
			b.Fatal("not positive definite")
		}
	}
}

func BenchmarkFactor3000gonum(b *testing.B) {
	s := assembled(b)
	n, band := 2*len(s.m.first), 0
	for r, f := range s.m.first {
		band = max(band, 2*(r-f)+1)
	}
	data := make([]float64, n*(band+1))
	for r, f := range s.m.first {
		for i, row := range [2]int{2 * r, 2*r + 1} {
			x, y := s.m.rows(r)
			for k, w := range [2][]float64{x, y}[i][:2*(r-f)+1+i] {
				data[row*(band+1)+band-row+2*f+k] = w
			}
		}
	}
	work := make([]float64, len(data))
	for b.Loop() {
		copy(work, data)
		sym := blas64.SymmetricBand{Uplo: blas.Lower, N: n, K: band, Data: work, Stride: band + 1}
		if _, ok := lapack64.Pbtrf(sym); !ok {
			b.Fatal("not positive definite")
		}
	}
}
