package body

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Sensitivity is one length of a piece (a girth of its shell, its length) and
// how it moves with the body's sizes.
type Sensitivity struct {
	Subject string           // "vambrace: wrist edge"
	PerMM   map[Name]float64 // mm that it moves per mm (kg) of each measurement
	Weight  float64          // how much it counts among others; 0 counts as 1
}

// Advice is a measurement worth taking.
type Advice struct {
	Name  Name
	HowTo string
	Gain  float64 // share of the pieces' summed variance that it takes away, given those before it
	Left  float64 // root mean square deviation of the pieces' lengths after it, mm
}

// Advice below a hundredth of the first variance is not worth a maker's time,
// and nobody reads a longer list.
const (
	leastGain  = 0.01
	mostAdvice = 12
)

// Next ranks what to measure: first the measurement whose taping lowers the
// summed variance of the pieces' lengths most, then the one that lowers what is
// left most, and so on. Measurements already taped, and those that makers hardly
// ever tape, are not advised.
func Next(m *Measurements, governed []Sensitivity) []Advice {
	cov := mat.NewSymDense(len(m.row), nil)
	if len(m.row) == 0 || len(governed) == 0 {
		return nil
	}
	cov.CopySym(m.cov)
	gradients, weights, total := m.gradients(governed)
	first := variance(cov, gradients, weights)
	var advice []Advice
	for len(advice) < mostAdvice && first > 0 {
		best, gain := m.best(cov, gradients, weights, advice)
		if best.Name == "" || gain < leastGain*first {
			break
		}
		observeRow(cov, m.row[best.Name], best.TapeSD)
		advice = append(advice, Advice{Name: best.Name, HowTo: best.HowTo, Gain: gain / first,
			Left: math.Sqrt(variance(cov, gradients, weights) / total)})
	}
	return advice
}

// gradients puts the sensitivities in the order of the covariance's rows.
func (m *Measurements) gradients(governed []Sensitivity) ([]*mat.VecDense, []float64, float64) {
	var gs []*mat.VecDense
	var weights []float64
	total := 0.0
	for _, s := range governed {
		g := mat.NewVecDense(len(m.row), nil)
		for n, k := range s.PerMM {
			if i, ok := m.row[n]; ok {
				g.SetVec(i, k)
			}
		}
		w := s.Weight
		if w == 0 {
			w = 1
		}
		gs, weights, total = append(gs, g), append(weights, w), total+w
	}
	return gs, weights, total
}

// variance is the weighted sum of the lengths' variances, mm².
func variance(cov *mat.SymDense, gs []*mat.VecDense, weights []float64) float64 {
	sum := 0.0
	for i, g := range gs {
		sum += weights[i] * mat.Inner(g, cov, g)
	}
	return sum
}

// best is the measurement whose taping takes most of the variance away, and how
// much: with j taped with deviation t, a length of gradient g loses
// (g·Cⱼ)² / (Cⱼⱼ + t²).
func (m *Measurements) best(cov *mat.SymDense, gs []*mat.VecDense, weights []float64, taken []Advice) (Description, float64) {
	var best Description
	most := 0.0
	for _, d := range catalogue {
		j, known := m.row[d.Name]
		if !known || d.Advanced || m.taped(d.Name) || advised(taken, d.Name) {
			continue
		}
		column := mat.NewVecDense(len(m.row), mat.Col(nil, j, cov))
		gain := 0.0
		for i, g := range gs {
			moved := mat.Dot(g, column)
			gain += weights[i] * moved * moved / (cov.At(j, j) + d.TapeSD*d.TapeSD)
		}
		if gain > most*(1+1e-9) { // ties go to the first of the catalogue
			best, most = d, gain
		}
	}
	return best, most
}

func (m *Measurements) taped(n Name) bool {
	x, ok := m.Get(n, Both)
	return ok && x.Origin == Taped
}

func advised(taken []Advice, n Name) bool {
	for _, a := range taken {
		if a.Name == n {
			return true
		}
	}
	return false
}

// observeRow is what is left of the covariance once row j is taped.
func observeRow(cov *mat.SymDense, j int, sd float64) {
	column := mat.NewVecDense(cov.SymmetricDim(), mat.Col(nil, j, cov))
	cov.SymRankOne(cov, -1/(cov.At(j, j)+sd*sd), column)
}
