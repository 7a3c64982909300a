package synth

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
)

// How people differ beyond their sizes, as standard deviations in mm.
// Judgement.
const (
	featureSD   = 3.0 // where a feature stands, up and forward, alike on both sides
	asymmetrySD = 1.0 // each landmark of its own
	skewSD      = 1.5 // the back of the skull pushed forward on one side
)

// RandomHead makes up a person of the survey and gives their head, with features
// and a skull that are their own.
func RandomHead(chance *rand.Rand) (*Head, error) {
	sex := []body.Sex{body.Woman, body.Man}[chance.IntN(2)]
	s := body.LoadSurvey()
	m, _, err := body.Estimate(s, s.Draw(sex, chance), nil)
	if err != nil {
		return nil, err
	}
	f, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		return nil, err
	}
	return FormHead(f).varied(chance), nil
}

// varied moves landmarks and skews the skull.
func (h *Head) varied(chance *rand.Rand) *Head {
	skew := skewSD * chance.NormFloat64()
	out := &Head{Skull: skewed(h.Skull, skew), Solid: skewed(h.Solid, skew), Points: map[string]r3.Vec{}, Place: h.Place}
	shared := map[string]r3.Vec{}
	for _, l := range photo.HeadLandmarks() {
		p, ok := h.Points[l.Name]
		if !ok || l.Rim() {
			continue
		}
		move := r3.Vec{Y: featureSD * chance.NormFloat64(), Z: featureSD * chance.NormFloat64()}
		if same, ok := shared[l.Pair]; ok {
			move = same
		}
		shared[l.Name] = move
		own := r3.Scale(asymmetrySD, r3.Vec{X: chance.NormFloat64(), Y: chance.NormFloat64(), Z: chance.NormFloat64()})
		if l.Name == "brow middle" { // it lies on the skull: it can only move along it
			move, own.Z = r3.Vec{Y: move.Y}, 0
		}
		out.Points[l.Name] = r3.Add(skewAt(p, skew), r3.Add(move, own))
	}
	return out.levelled()
}

// skewAt pushes the back of a skull forward on the left and back on the right.
func skewAt(p r3.Vec, by float64) r3.Vec {
	if p.Z < 0 {
		p.Z += by * p.X / 75 * math.Min(1, -p.Z/60)
	}
	return p
}

func skewed(m geom.Mesh, by float64) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = skewAt(v, by)
	}
	return out
}

// flat is a loop in a frame's plane: X is its x, Y its z.
func flat(loop []r3.Vec, f geom.Frame) []r2.Vec {
	out := make([]r2.Vec, len(loop))
	for i, p := range loop {
		l := f.Local(p)
		out[i] = r2.Vec{X: l.X, Y: l.Z}
	}
	return out
}
