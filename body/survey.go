package body

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Survey is a multivariate normal over the logarithms of people's sizes (mm,
// kg), for men, for women, and for people of either sex.
type Survey struct {
	names []Name // catalogue order
	row   map[Name]int
	men   normal
	women normal
	all   normal
}

// normal is the distribution of log sizes, in the order of Survey.names.
type normal struct {
	people int
	mean   []float64
	cov    *mat.SymDense
}

//go:embed survey.json
var surveyFile []byte

// LoadSurvey gives the embedded model: figures computed by the program in
// surveygen from the 2012 US Army survey (3484 men and 1703 women of it).
var LoadSurvey = sync.OnceValue(func() *Survey {
	s, err := ParseSurvey(surveyFile)
	if err != nil {
		panic("the embedded survey: " + err.Error()) // built in, so a bug of ours
	}
	return s
})

// Names lists the measurements that the survey can estimate, in catalogue order.
func (s *Survey) Names() []Name { return append([]Name(nil), s.names...) }

// SurveyedNames lists the measurements that the survey itself took: the order
// of the rows that FitSurvey wants.
func SurveyedNames() []Name {
	var names []Name
	for _, d := range catalogue {
		if d.Survey != "" {
			names = append(names, d.Name)
		}
	}
	return names
}

// FitSurvey computes the model from people's sizes (mm, kg), one row a person
// in the order of SurveyedNames. Girths that the survey lacks come in by
// regression, their residual variance with them.
func FitSurvey(men, women [][]float64) *Survey {
	s := newSurvey(modelNames())
	s.men, s.women = s.fit(men, 0), s.fit(women, 1)
	s.all = blend(s.men, s.women)
	return s
}

func newSurvey(names []Name) *Survey {
	s := &Survey{names: names, row: map[Name]int{}}
	for i, n := range names {
		s.row[n] = i
	}
	return s
}

// modelNames are the surveyed and the regressed measurements, catalogue order.
func modelNames() []Name {
	var names []Name
	for _, d := range catalogue {
		if _, regressed := regressions[d.Name]; regressed || d.Survey != "" {
			names = append(names, d.Name)
		}
	}
	return names
}

// fit is the mean and covariance of the logarithms of one sex's rows.
func (s *Survey) fit(people [][]float64, sex int) normal {
	logs := mat.NewDense(len(people), len(s.names), nil)
	place := map[Name]int{}
	for i, n := range SurveyedNames() {
		place[n] = i
	}
	for p, sizes := range people {
		size := func(n Name) float64 { return sizes[place[n]] }
		for j, n := range s.names {
			if r, ok := regressions[n]; ok {
				logs.Set(p, j, math.Log(r[sex].predict(size)))
				continue
			}
			logs.Set(p, j, math.Log(size(n)))
		}
	}
	d := normal{people: len(people), mean: make([]float64, len(s.names)), cov: mat.NewSymDense(len(s.names), nil)}
	stat.CovarianceMatrix(d.cov, logs, nil)
	for j, n := range s.names {
		d.mean[j] = stat.Mean(mat.Col(nil, j, logs), nil)
		if r, ok := regressions[n]; ok {
			rel := r[sex].residual / math.Exp(d.mean[j])
			d.cov.SetSym(j, j, d.cov.At(j, j)+rel*rel)
		}
	}
	return d
}

// blend is the normal with the mean and covariance of a crowd that is half a
// and half b: the model of a person whose sex is not stated.
func blend(a, b normal) normal {
	k := len(a.mean)
	d := normal{people: a.people + b.people, mean: make([]float64, k), cov: mat.NewSymDense(k, nil)}
	for i := range k {
		d.mean[i] = (a.mean[i] + b.mean[i]) / 2
		for j := i; j < k; j++ {
			between := (a.mean[i] - b.mean[i]) * (a.mean[j] - b.mean[j]) / 4
			d.cov.SetSym(i, j, (a.cov.At(i, j)+b.cov.At(i, j))/2+between)
		}
	}
	return d
}

// model is the distribution for people of a sex.
func (s *Survey) model(sex Sex) normal {
	switch sex {
	case Man:
		return s.men
	case Woman:
		return s.women
	default:
		return s.all
	}
}

// surveyJSON is the model as its file holds it: logarithms of mm and kg.
type surveyJSON struct {
	Source string    `json:"source"`
	Names  []Name    `json:"names"`
	Men    modelJSON `json:"men"`
	Women  modelJSON `json:"women"`
}

type modelJSON struct {
	People      int         `json:"people"`
	Mean        []float64   `json:"mean"`
	SD          []float64   `json:"sd"`
	Correlation [][]float64 `json:"correlation"` // row i: with columns 0 to i-1
}

// ParseSurvey reads a model that MarshalJSON wrote.
func ParseSurvey(data []byte) (*Survey, error) {
	var f surveyJSON
	if err := json.Unmarshal(data, &f); err != nil {
		return nil, fmt.Errorf("reading the survey's model: %w", err)
	}
	s := newSurvey(f.Names)
	for _, n := range f.Names {
		if _, ok := Describe(n); !ok {
			return nil, fmt.Errorf("reading the survey's model: %q is no measurement of the catalogue", n)
		}
	}
	var err error
	if s.men, err = f.Men.normal(len(f.Names)); err != nil {
		return nil, fmt.Errorf("reading the survey's model of men: %w", err)
	}
	if s.women, err = f.Women.normal(len(f.Names)); err != nil {
		return nil, fmt.Errorf("reading the survey's model of women: %w", err)
	}
	s.all = blend(s.men, s.women)
	return s, nil
}

func (m modelJSON) normal(k int) (normal, error) {
	if len(m.Mean) != k || len(m.SD) != k || len(m.Correlation) != k {
		return normal{}, fmt.Errorf("%d means, %d deviations and %d rows for %d names", len(m.Mean), len(m.SD), len(m.Correlation), k)
	}
	d := normal{people: m.People, mean: m.Mean, cov: mat.NewSymDense(k, nil)}
	for i, row := range m.Correlation {
		if len(row) != i {
			return normal{}, fmt.Errorf("row %d has %d correlations", i, len(row))
		}
		d.cov.SetSym(i, i, m.SD[i]*m.SD[i])
		for j, r := range row {
			d.cov.SetSym(i, j, r*m.SD[i]*m.SD[j])
		}
	}
	var c mat.Cholesky
	if !c.Factorize(d.cov) {
		return normal{}, fmt.Errorf("its covariance is not positive definite")
	}
	return d, nil
}

// MarshalJSON writes the model, rounded to 0.00001.
func (s *Survey) MarshalJSON() ([]byte, error) {
	return json.Marshal(surveyJSON{
		Source: "computed from the 2012 Anthropometric Survey of U.S. Army Personnel (NATICK/TR-15/007); natural logarithms of mm and kg",
		Names:  s.names, Men: s.men.file(), Women: s.women.file(),
	})
}

func (d normal) file() modelJSON {
	m := modelJSON{People: d.people, Correlation: make([][]float64, len(d.mean))}
	for i := range d.mean {
		m.Mean = append(m.Mean, round5(d.mean[i]))
		m.SD = append(m.SD, round5(math.Sqrt(d.cov.At(i, i))))
		m.Correlation[i] = make([]float64, i)
		for j := range i {
			m.Correlation[i][j] = round5(d.cov.At(i, j) / math.Sqrt(d.cov.At(i, i)*d.cov.At(j, j)))
		}
	}
	return m
}

func round5(v float64) float64 { return math.Round(v*1e5)/1e5 + 0 }
