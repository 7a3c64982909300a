package body

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// evidence is what was measured, in the model's logarithms.
type evidence struct {
	rows  []int         // of the model
	dev   *mat.VecDense // log of the value less the model's mean
	noise *mat.SymDense // covariance of the logs' errors
	chol  mat.Cholesky  // of the model's covariance of the rows, plus noise
}

// evidence takes those observations that the model knows. Nil: there are none.
func (s *Survey) evidence(m normal, o observed) *evidence {
	e := &evidence{}
	var of []int // rows of o
	for i, n := range o.names {
		if r, ok := s.row[n]; ok {
			e.rows, of = append(e.rows, r), append(of, i)
		}
	}
	k := len(of)
	if k == 0 {
		return nil
	}
	e.dev, e.noise = mat.NewVecDense(k, nil), mat.NewSymDense(k, nil)
	total := mat.NewSymDense(k, nil)
	for a, i := range of {
		e.dev.SetVec(a, math.Log(o.values[i])-m.mean[e.rows[a]])
		for b := a; b < k; b++ {
			j := of[b]
			e.noise.SetSym(a, b, o.cov.At(i, j)/(o.values[i]*o.values[j]))
			total.SetSym(a, b, m.cov.At(e.rows[a], e.rows[b])+e.noise.At(a, b))
		}
	}
	if !e.chol.Factorize(total) {
		panic("a positive definite model plus noise is not positive definite")
	}
	return e
}

// conditional is the distribution of log sizes given noisy evidence, with the
// covariance of its errors with those of the evidence.
type conditional struct {
	mean  []float64
	cov   *mat.SymDense // of the errors of mean
	cross *mat.Dense    // of the errors of mean with those of the evidence
}

// given conditions the model on evidence: mean μ + A(y − μ), A = Σ_xy (Σ_yy + N)⁻¹.
// The error of that mean is A(y + n) − x, hence its covariance Σ_xx − A Σ_yx, and
// A N with the evidence's own errors n. Source: any text on the multivariate
// normal, e.g. Anderson, An Introduction to Multivariate Statistical Analysis, 2.5.
func (m normal) given(e *evidence) conditional {
	n := len(m.mean)
	c := conditional{mean: append([]float64(nil), m.mean...), cov: mat.NewSymDense(n, nil)}
	c.cov.CopySym(m.cov)
	if e == nil {
		return c
	}
	k := len(e.rows)
	yx := mat.NewDense(k, n, nil)
	for a, r := range e.rows {
		for j := range n {
			yx.Set(a, j, m.cov.At(r, j))
		}
	}
	var at mat.Dense // A transposed, k × n
	if err := e.chol.SolveTo(&at, yx); err != nil {
		panic(err) // a condition number that the model and a tape's noise cannot give
	}
	var shift mat.VecDense
	shift.MulVec(at.T(), e.dev)
	var lost mat.Dense
	lost.Mul(at.T(), yx)
	for i := range n {
		c.mean[i] += shift.AtVec(i)
		for j := i; j < n; j++ {
			c.cov.SetSym(i, j, m.cov.At(i, j)-(lost.At(i, j)+lost.At(j, i))/2)
		}
	}
	c.cross = new(mat.Dense)
	c.cross.Mul(at.T(), e.noise)
	return c
}
