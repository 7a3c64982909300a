package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// bodySize is a measurement as pictures of a whole body show it.
type bodySize struct {
	name  body.Name
	of    []string // landmarks; a height takes the mean of those that are marked
	kind  body.Kind
	doubt float64 // mm: what clothes, stance and breath add to the marks' own deviation
}

// bodySizes are the measurements that whole-body views give, by the survey's
// definitions. Missing on purpose: the chest's breadth, which is taken on the
// ribs under the arms, where an outline shows muscle and arm; foot length, as
// feet turn out and wear shoes; wrist height, as arms are held out; ankle height,
// which the survey tells better of anybody; and all girths. The doubts are judgement for close-fitting clothes and bare feet, and
// are told to the maker.
var bodySizes = []bodySize{
	{"stature", one("crown"), body.KindHeight, 8},
	{"front neck height", one("neck pit"), body.KindHeight, 8},
	{"back neck height", one("neck bone"), body.KindHeight, 10},
	{"shoulder height", pair("shoulder edge"), body.KindHeight, 8},
	{"armpit height", pair("armpit"), body.KindHeight, 12},
	{"chest height", one("chest front"), body.KindHeight, 12},
	{"waist height", one("navel"), body.KindHeight, 8},
	{"hip height", one("hip back"), body.KindHeight, 12},
	{"crotch height", one("crotch"), body.KindHeight, 12},
	{"knee height", pair("knee"), body.KindHeight, 6},
	{"shoulder breadth", pair("shoulder edge"), body.KindBreadth, 8},
	{"bideltoid breadth", pair("upper arm"), body.KindBreadth, 8},
	{"waist breadth", pair("waist side"), body.KindBreadth, 6},
	{"hip breadth", pair("hip side"), body.KindBreadth, 10},
	{"chest depth", []string{"chest front", "chest back"}, body.KindDepth, 8},
	{"waist depth", []string{"waist front", "waist back"}, body.KindDepth, 7},
	{"hip depth", []string{"hip front", "hip back"}, body.KindDepth, 8},
}

func one(landmark string) []string { return []string{landmark} }

func pair(landmark string) []string { return []string{"left " + landmark, "right " + landmark} }

// bodyMeasures are the sizes that the subject's marks give: a height where the
// picture shows the floor, a breadth from the front, a depth from the side.
func bodyMeasures(s *Subject) []measure {
	marked := func(n string) bool { _, ok := s.Point(n); return ok }
	var floor bool
	for _, l := range s.model.fig.landmarks {
		floor = floor || l.onFloor() && marked(l.Name)
	}
	var out []measure
	for _, z := range bodySizes {
		d, _ := body.Describe(z.name)
		m := measure{name: string(z.name), howTo: d.HowTo, own: z.doubt, needs: z.of}
		switch z.kind {
		case body.KindHeight:
			if m.needs = kept(z.of, marked); !floor || len(m.needs) == 0 {
				continue
			}
			m.length = aboveFloor(m.needs)
		case body.KindBreadth:
			if !s.shows(BodyFront) || z.name == "bideltoid breadth" && s.armsOut() {
				continue
			}
			m.length = along(r3.Vec{X: 1}, z.of[1], z.of[0])
		case body.KindDepth:
			m.length = along(r3.Vec{Z: 1}, z.of[1], z.of[0])
		}
		out = append(out, m)
	}
	return out
}

// armsOut tells whether an arm is held out so far that the breadth over both
// upper arms is not the one of hanging arms.
func (s *Subject) armsOut() bool {
	left, ok := s.armLean("left ")
	right, ok2 := s.armLean("right ")
	return ok && left > mostArm || ok2 && right > mostArm
}

// shows tells whether one of the shots is of a view.
func (s *Subject) shows(v View) bool {
	for _, q := range s.Shots {
		if q.View == v {
			return true
		}
	}
	return false
}

func kept(names []string, keep func(string) bool) []string {
	var out []string
	for _, n := range names {
		if keep(n) {
			out = append(out, n)
		}
	}
	return out
}

// soles are the landmarks that stand on the floor.
var soles = []string{"left toe", "right toe", "left heel", "right heel"}

// aboveFloor is the mean height of landmarks over the soles, of which those that
// were not marked are level with the others.
func aboveFloor(of []string) func(func(string) r3.Vec) (float64, map[string]r3.Vec) {
	return func(at func(string) r3.Vec) (h float64, by map[string]r3.Vec) {
		by = map[string]r3.Vec{}
		add := func(names []string, k float64) {
			for _, n := range names {
				h += k * at(n).Y
				by[n] = r3.Vec{Y: k}
			}
		}
		add(of, 1/float64(len(of)))
		add(soles, -1/float64(len(soles)))
		return h, by
	}
}

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
