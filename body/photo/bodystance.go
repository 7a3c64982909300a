package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// Stance is how the trunk stands over the hips, from a side view.
type Stance struct {
	Posture          body.Posture
	ChestSD, WaistSD float64 // mm
}

// Deviations that the marks do not tell: how far a person's stance before the
// camera is their usual one, and where a section's middle lies between its
// outlines. Judgement.
const usualStance = 8.0 // mm

// stance reads the posture off the middles of chest, waist and hips; nil if no
// side view shows all three.
func (s *Subject) stance() *Stance {
	for _, n := range []string{"crown", "chest front", "chest back", "waist front", "waist back", "hip front", "hip back"} {
		if _, ok := s.Point(n); !ok {
			return nil
		}
	}
	at := func(name string) r3.Vec { return s.model.landmark(s.best.x)(s.model.fig.must(name)) }
	middle := func(n string) float64 { return (at(n+" front").Z + at(n+" back").Z) / 2 }
	stature, up := aboveFloor(one("crown"))(at)
	chest, waist := body.StandsForward(stature)
	slopes := func(n string, share float64) []float64 {
		by := map[string]r3.Vec{n + " front": {Z: .5}, n + " back": {Z: .5}, "hip front": {Z: -.5}, "hip back": {Z: -.5}}
		for l, d := range up {
			by[l] = r3.Scale(-share, d)
		}
		return s.gradient(by)
	}
	cov := s.spreadOf([][]float64{slopes("chest", chest/stature), slopes("waist", waist/stature)})
	return &Stance{
		Posture: body.Posture{ChestForward: middle("chest") - middle("hip") - chest, WaistForward: middle("waist") - middle("hip") - waist},
		ChestSD: math.Sqrt(cov.At(0, 0) + usualStance*usualStance),
		WaistSD: math.Sqrt(cov.At(1, 1) + usualStance*usualStance),
	}
}
