package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// normal is the weighted normal matrix of rows, and the gradient of their loss.
type normal struct {
	n     int
	h     []float64 // upper triangle, row by row, n apart
	g     []float64
	scale []float64 // 1/√ of h's diagonal
	work  []float64
	chol  mat.Cholesky
	out   *mat.VecDense
}

func newNormal(n int) *normal {
	v := func() []float64 { return make([]float64, n) }
	return &normal{n: n, h: make([]float64, n*n), g: v(), scale: v(), work: make([]float64, n*n), out: mat.NewVecDense(n, nil)}
}

// set makes the matrix of rows with a weight for each block.
func (k *normal) set(r *rows, weights []float64) {
	clear(k.h)
	clear(k.g)
	for bi, b := range r.blocks {
		for i := b.from; i < b.to; i++ {
			k.add(r, i, weights[bi])
		}
	}
	for i := range k.scale {
		k.scale[i] = 1 / math.Sqrt(max(k.h[i*k.n+i], 1e-30))
	}
}

func (k *normal) add(r *rows, i int, weight float64) {
	cols, vals := r.terms(i)
	for a, ca := range cols {
		wa := weight * vals[a]
		k.g[ca] += wa * r.res[i]
		for b, cb := range cols[:a+1] {
			k.h[min(ca, cb)*k.n+max(ca, cb)] += wa * vals[b]
		}
	}
}

// step is the damped step, and the gain that the quadratic model foresees.
func (k *normal) step(damp float64) (step []float64, foreseen float64, ok bool) {
	if !k.factorize(damp) {
		return nil, 0, false
	}
	rhs := mat.NewVecDense(k.n, nil)
	for i, g := range k.g {
		rhs.SetVec(i, -g*k.scale[i])
	}
	if err := k.chol.SolveVecTo(k.out, rhs); err != nil {
		return nil, 0, false
	}
	step = k.out.RawVector().Data
	for i, y := range step {
		foreseen += y * (damp*y + rhs.AtVec(i)) / 2
		step[i] = y * k.scale[i]
	}
	return step, foreseen, true
}

// factorize takes the root of the scaled matrix with damping on its diagonal.
func (k *normal) factorize(damp float64) bool {
	for i := range k.n {
		for j := i; j < k.n; j++ {
			k.work[i*k.n+j] = k.h[i*k.n+j] * k.scale[i] * k.scale[j]
		}
		k.work[i*k.n+i] += damp
	}
	return k.chol.Factorize(mat.NewSymDense(k.n, k.work))
}

// inverse is the covariance of the errors of the unknowns.
func (k *normal) inverse() (*mat.SymDense, error) {
	cov := mat.NewSymDense(k.n, nil)
	if !k.factorize(0) {
		return nil, errSingular
	}
	if err := k.chol.InverseTo(cov); err != nil {
		return nil, errSingular
	}
	for i := range k.n {
		for j := i; j < k.n; j++ {
			cov.SetSym(i, j, cov.At(i, j)*k.scale[i]*k.scale[j])
		}
	}
	return cov, nil
}
