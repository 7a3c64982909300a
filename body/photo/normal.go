package photo

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// normal is the weighted normal matrix of rows, and the gradient of their loss.
type normal struct {
	n     int
	h     []float64 // upper triangle, row by row, n apart
	g     []float64
	scale []float64 // 1/√ of h's diagonal
	work  []float64
}

func newNormal(n int) *normal {
	v := func() []float64 { return make([]float64, n) }
	return &normal{n: n, h: make([]float64, n*n), g: v(), scale: v(), work: make([]float64, n*n)}
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
	root, ok := k.factorize(damp)
	if !ok {
		return nil, 0, false
	}
	step = make([]float64, k.n)
	for i, g := range k.g {
		step[i] = -g * k.scale[i]
	}
	lapack64.Potrs(root, blas64.General{Rows: k.n, Cols: 1, Stride: 1, Data: step})
	for i, y := range step {
		foreseen += y * (damp*y - k.g[i]*k.scale[i]) / 2
		step[i] = y * k.scale[i]
	}
	return step, foreseen, true
}

// factorize takes the root of the scaled matrix with damping on its diagonal.
// Scaled, its condition is a few thousand, so that none needs to be worked out.
func (k *normal) factorize(damp float64) (blas64.Triangular, bool) {
	for i := range k.n {
		for j := i; j < k.n; j++ {
			k.work[i*k.n+j] = k.h[i*k.n+j] * k.scale[i] * k.scale[j]
		}
		k.work[i*k.n+i] += damp
	}
	return lapack64.Potrf(blas64.Symmetric{Uplo: blas.Upper, N: k.n, Stride: k.n, Data: k.work})
}

// inverse is the covariance of the errors of the unknowns.
func (k *normal) inverse() (*mat.SymDense, error) {
	root, ok := k.factorize(0)
	if !ok {
		return nil, errSingular
	}
	inverse, ok := lapack64.Potri(root)
	if !ok {
		return nil, errSingular
	}
	cov := mat.NewSymDense(k.n, nil)
	for i := range k.n {
		for j := i; j < k.n; j++ {
			cov.SetSym(i, j, inverse.Data[i*k.n+j]*k.scale[i]*k.scale[j])
		}
	}
	return cov, nil
}
