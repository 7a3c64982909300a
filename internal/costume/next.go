package costume

import (
	"tasset/body"
	"tasset/internal/units"
)

// Step is a measurement worth taking next.
type Step struct {
	Name  string  `json:"name"`
	HowTo string  `json:"howTo"`
	Gain  float64 `json:"gain"` // share of the pieces' uncertainty that it takes away
	Left  float64 `json:"left"` // what the pieces' lengths are still off by after it, mm, root mean square
}

// Next ranks what to measure for the pieces that were made: first the one that
// makes their lengths certain fastest.
func (r *Result) Next() []Step {
	var steps []Step
	for _, a := range body.Next(r.Measurements, r.sensitivities()) {
		steps = append(steps, Step{Name: string(a.Name), HowTo: a.HowTo, Gain: units.Round(a.Gain), Left: units.Round(a.Left)})
	}
	return steps
}

// sensitivities are how each piece moves with the sizes that govern it.
func (r *Result) sensitivities() []body.Sensitivity {
	var out []body.Sensitivity
	for _, p := range r.Set.Pieces {
		for _, g := range p.Governs {
			if g.PerMM != 0 {
				out = append(out, body.Sensitivity{Subject: p.Name, PerMM: map[body.Name]float64{g.Name: g.PerMM}})
			}
		}
	}
	return out
}

// ToMeasure names the sizes that keep pieces drafts, each once, in the order of
// the pieces.
func (r *Result) ToMeasure() []string {
	seen := map[body.Name]bool{}
	var names []string
	for _, p := range r.Set.Pieces {
		for _, g := range p.Governs {
			if p.Draft && !g.Good && !seen[g.Name] {
				seen[g.Name] = true
				names = append(names, string(g.Name))
			}
		}
	}
	return names
}
