package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// Stance is how the trunk stands over the hips, from a side view.
type Stance struct {
	Posture                       body.Posture // of shoulders only if they are marked
	ChestSD, WaistSD, ShouldersSD float64      // mm
}

// Deviations that the marks do not tell: how far a person's stance before the
// camera is their usual one, and where a section's middle lies between its
// outlines. Judgement.
const usualStance = 8.0 // mm

// Landmarks where a side view shows the foremost and the hindmost of a section.
var (
	chestOutline     = [2]string{"chest front", "chest back"}
	waistOutline     = [2]string{"waist front", "waist back"}
	hipOutline       = [2]string{"hip front", "hip back"}
	shouldersOutline = [2]string{"upper chest", "upper back"}
)

// marked tells whether the marks fix all of some landmarks.
func (s *Subject) marked(names ...string) bool {
	for _, n := range names {
		if _, ok := s.Point(n); !ok {
			return false
		}
	}
	return true
}

// stance reads the posture off the middles of chest, waist and hips, and of the
// shoulders if they are marked; nil if no side view shows the first three.
func (s *Subject) stance() *Stance {
	if !s.marked("crown", chestOutline[0], chestOutline[1], waistOutline[0], waistOutline[1], hipOutline[0], hipOutline[1]) {
		return nil
	}
	at := func(name string) r3.Vec { return s.model.landmark(s.best.x)(s.model.fig.must(name)) }
	stature, up := aboveFloor(one("crown"))(at)
	chest, waist, shoulders := body.StandsForward(stature)
	place := func(outline [2]string, usual float64) (forward, sd float64) {
		middle := func(o [2]string) float64 { return (at(o[0]).Z + at(o[1]).Z) / 2 }
		by := map[string]r3.Vec{outline[0]: {Z: .5}, outline[1]: {Z: .5}, hipOutline[0]: {Z: -.5}, hipOutline[1]: {Z: -.5}}
		for l, d := range up {
			by[l] = r3.Scale(-usual/stature, d)
		}
		cov := s.spreadOf([][]float64{s.gradient(by)})
		return middle(outline) - middle(hipOutline) - usual, math.Sqrt(cov.At(0, 0) + usualStance*usualStance)
	}
	out := &Stance{}
	out.Posture.ChestForward, out.ChestSD = place(chestOutline, chest)
	out.Posture.WaistForward, out.WaistSD = place(waistOutline, waist)
	if out.Posture.ShouldersKnown = s.marked(shouldersOutline[0], shouldersOutline[1]); out.Posture.ShouldersKnown {
		out.Posture.ShouldersForward, out.ShouldersSD = place(shouldersOutline, shoulders)
	}
	return out
}
