package photo

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Analytic derivatives against central differences, on heads, poses, rulers and
// cards drawn at random round the usual ones.
func TestSlopes(t *testing.T) {
	chance := rand.New(rand.NewPCG(21, 4))
	var worst float64
	tried := 0
	for range 5 {
		shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26, card: true})
		m, start := newModel(newHead(), shots)
		for range 60 {
			x := append([]float64(nil), start...)
			for i := range x {
				s := .12
				if i < 3*len(m.fig.landmarks) {
					s = 8
				}
				x[i] += s * chance.NormFloat64()
			}
			if !flat(m, x) {
				worst = max(worst, slopeError(m, x))
				tried++
			}
		}
	}
	if worst > 1e-8 {
		t.Errorf("derivatives are off by %.3g of the row's largest", worst)
	}
	t.Logf("worst relative difference of %d: %.2g", tried, worst)
	if tried < 10 {
		t.Errorf("only %d of 300 were tried", tried)
	}
}

// flat tells whether an outline touches the skull where it is nearly flat: its
// third derivative has no limit there, so that differences tell nothing.
func flat(m *model, x []float64) bool {
	for _, v := range m.views {
		p := newPose(x[v.at : v.at+poseSize])
		for _, s := range v.sights {
			l := m.fig.landmarks[s.landmark]
			if l.rim == noAxis {
				continue
			}
			q, _ := m.fig.skull.cranium(s.landmark, m.landmark(x))
			k, _ := newTangent(q, &p, l.rim, s.side)
			w := mat3{p.r.col(0), p.r.col(1), p.r.col(2)}.mul(k.l)
			if min(math.Abs(w.X), math.Abs(w.Y), math.Abs(w.Z)) < .05 {
				return true
			}
		}
	}
	return false
}

// slopeError is the largest difference between analytic and numeric derivatives,
// against the largest derivative by the same unknown.
func slopeError(m *model, x []float64) float64 {
	var at rows
	m.rows(x, &at)
	dense := make([][]float64, len(at.res))
	for i := range dense {
		dense[i] = make([]float64, len(x))
		cols, vals := at.terms(i)
		for k, c := range cols {
			dense[i][c] += vals[k]
		}
	}
	var worst float64
	for j := range x {
		var off rows
		column := make([]float64, len(at.res))
		h := 1e-3 * math.Max(math.Abs(x[j]), .05)
		// fourth order: (8(f(h) - f(-h)) - (f(2h) - f(-2h))) / 12h
		for _, q := range []struct{ k, w float64 }{{1, 8}, {-1, -8}, {2, -1}, {-2, 1}} {
			y := append([]float64(nil), x...)
			y[j] += q.k * h
			off.reset()
			m.rows(y, &off)
			for i, r := range off.res {
				column[i] += q.w * r / (12 * h)
			}
		}
		var size float64
		for i := range column {
			size = max(size, math.Abs(dense[i][j]))
		}
		for i := range column {
			worst = max(worst, math.Abs(column[i]-dense[i][j])/size)
		}
	}
	return worst
}
