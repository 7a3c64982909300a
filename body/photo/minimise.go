package photo

import (
	"context"
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// problem is a sum of squares to be made least.
type problem interface {
	size() int
	// rows puts the residuals at x, with derivatives, into an empty r.
	rows(x []float64, r *rows)
}

// minimum is where a problem's loss is least.
type minimum struct {
	x       []float64
	rows    rows      // at x
	weights []float64 // of its blocks
	cost    float64
	cov     *mat.SymDense // of the errors of x: the inverse of the weighted normal matrix
	steps   int
	settled bool // false: it was stopped after maxSteps
}

const (
	maxSteps  = 60
	costGain  = 1e-9 // a step that gains less than this share of the cost is the last
	firstDamp = 1e-3
)

var errSingular = errors.New("the marks do not determine where the cameras stood")

// minimise goes downhill from x by damped Gauss-Newton steps (Levenberg and
// Marquardt), in unknowns scaled to equal curvature, because a head's
// millimetres, a camera's angles and the logarithm of its distance differ by
// ten orders of magnitude in curvature. Damping follows the gain: H. B. Nielsen,
// "Damping parameter in Marquardt's method", IMM-REP-1999-05.
func minimise(ctx context.Context, p problem, x []float64) (*minimum, error) {
	m, trial := evaluate(p, x, &minimum{}), &minimum{}
	if math.IsNaN(m.cost) {
		return nil, errSingular
	}
	n := newNormal(p.size())
	n.set(&m.rows, m.weights)
	damp, grow := firstDamp, 2.0
	for step := 0; step < maxSteps && !m.settled; step++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		dx, foreseen, ok := n.step(damp)
		if ok {
			evaluate(p, moved(m.x, dx), trial)
		}
		gain := m.cost - trial.cost
		done := ok && damp <= 1 && foreseen < costGain*(m.cost+costGain)
		if !ok || !(gain > 0) { // NaN is no gain either
			damp, grow, m.settled = damp*grow, grow*2, done
			continue
		}
		m, trial = trial, m
		m.steps, m.settled = step+1, done
		t := 2*gain/foreseen - 1
		damp, grow = max(damp*max(1./3, 1-t*t*t), 1e-12), 2
		n.set(&m.rows, m.weights)
	}
	var err error
	m.cov, err = n.inverse()
	return m, err
}

// evaluate fills m with the problem at x.
func evaluate(p problem, x []float64, m *minimum) *minimum {
	m.x, m.settled = x, false
	m.rows.reset()
	p.rows(x, &m.rows)
	m.cost, m.weights = m.rows.loss(m.weights)
	return m
}

func moved(x, dx []float64) []float64 {
	y := make([]float64, len(x))
	for i := range x {
		y[i] = x[i] + dx[i]
	}
	return y
}
