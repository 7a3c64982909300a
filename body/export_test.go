package body

import "gonum.org/v1/gonum/mat"

// Exactly makes Measurements of values known without doubt, for tests of the form.
func Exactly(sex Sex, values map[Name]float64) *Measurements {
	at := map[place]Measurement{}
	var names []Name
	for _, d := range Catalogue() {
		if v, ok := values[d.Name]; ok {
			at[place{d.Name, Both}] = Measurement{Name: d.Name, Value: v, Origin: Taped}
			names = append(names, d.Name)
		}
	}
	return collect(sex, at, names, mat.NewSymDense(len(names), nil))
}

// FormNeeds are the measurements that a form is made of.
func FormNeeds() []Name { return append([]Name(nil), formNeeds...) }

// For tests of the section.
var (
	Split         = split
	SolveExponent = solveExponent
)
