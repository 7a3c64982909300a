package body

import "gonum.org/v1/gonum/mat"

// Measurements are all sizes that are known of one person, taken or estimated,
// with their joint covariance. They do not change once made.
type Measurements struct {
	sex  Sex
	list []Measurement // catalogue order, Both before Left before Right
	at   map[place]int
	row  map[Name]int  // row of cov; every name of the list has one
	cov  *mat.SymDense // mm², of the values that stand for both sides
}

type place struct {
	name Name
	side Side
}

// Sex is the sex that the maker stated.
func (m *Measurements) Sex() Sex { return m.sex }

// Get gives a measurement. A side that was not taken apart falls back to the
// value that stands for both. It reports false if the size is unknown: never
// taken, and not one that can be estimated.
func (m *Measurements) Get(n Name, s Side) (Measurement, bool) {
	i, ok := m.at[place{n, s}]
	if !ok {
		i, ok = m.at[place{n, Both}]
	}
	if !ok {
		return Measurement{}, false
	}
	return m.list[i], true
}

// All lists every measurement in catalogue order, Both before Left before Right.
func (m *Measurements) All() []Measurement { return append([]Measurement(nil), m.list...) }

// Cov is the joint covariance of the errors of two measurements, mm² (weight
// counts in kg), for the values that stand for both sides. It is 0 where one of
// them is unknown.
func (m *Measurements) Cov(a, b Name) float64 {
	i, ok := m.row[a]
	j, ok2 := m.row[b]
	if !ok || !ok2 {
		return 0
	}
	return m.cov.At(i, j)
}

// With gives the same person with other values, deviations kept: for asking how
// a result moves with a measurement. Where left and right stand apart, both
// move by as much as the value for both does. Unknown names are left out.
func (m *Measurements) With(values map[Name]float64) *Measurements {
	out := *m
	out.list = m.All()
	for i, x := range m.list {
		v, ok := values[x.Name]
		if !ok {
			continue
		}
		out.list[i].Value += v - m.list[m.at[place{x.Name, Both}]].Value
	}
	return &out
}

// collect makes Measurements of values in any order; names gives the rows of cov.
func collect(sex Sex, values map[place]Measurement, names []Name, cov *mat.SymDense) *Measurements {
	m := &Measurements{sex: sex, at: map[place]int{}, row: map[Name]int{}, cov: cov}
	for _, d := range catalogue {
		for _, s := range []Side{Both, Left, Right} {
			if x, ok := values[place{d.Name, s}]; ok {
				m.at[place{d.Name, s}] = len(m.list)
				m.list = append(m.list, x)
			}
		}
	}
	for i, n := range names {
		m.row[n] = i
	}
	return m
}
