package body

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
)

// Draw makes up a body: every size that the survey's model knows, drawn from it
// with the given source of chance, as entries without error. It serves tests and
// sweeps; for NotStated it draws from the blend of both sexes.
func (s *Survey) Draw(sex Sex, chance *rand.Rand) Tape {
	m := s.model(sex)
	var c mat.Cholesky
	if !c.Factorize(m.cov) {
		panic("the model's covariance is not positive definite") // ParseSurvey checks it
	}
	var root mat.TriDense
	c.LTo(&root)
	z := mat.NewVecDense(len(m.mean), nil)
	for i := range m.mean {
		z.SetVec(i, chance.NormFloat64())
	}
	var x mat.VecDense
	x.MulVec(&root, z)
	t := Tape{Sex: sex}
	for i, n := range s.names {
		t.Entries = append(t.Entries, Entry{Name: n, Value: math.Exp(m.mean[i] + x.AtVec(i))})
	}
	return t
}
