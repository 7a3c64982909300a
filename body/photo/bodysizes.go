package photo

import (
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// bodySize is a measurement as pictures of a whole body show it.
type bodySize struct {
	name  body.Name
	of    []string // landmarks; a height takes the mean of those that are marked
	kind  body.Kind
	doubt float64 // mm: what clothes, stance and breath add to the marks' own deviation
	is    string  // in one sentence
}

// bodySizes are the measurements that whole-body views give, by the survey's
// definitions. Missing on purpose: the chest's breadth, which is taken on the
// ribs under the arms, where an outline shows muscle and arm; foot length, as
// feet turn out and wear shoes; wrist height, as arms are held out; ankle height,
// which the survey tells better of anybody; and all girths. The doubts are
// judgement for close-fitting clothes and bare feet, and are told to the maker.
var bodySizes = []bodySize{
	{"stature", one("crown"), body.KindHeight, 8, "From the soles up to the top of the head."},
	{"front neck height", one("neck pit"), body.KindHeight, 8, "From the soles up to the pit between the collar bones."},
	{"back neck height", one("neck bone"), body.KindHeight, 10, "From the soles up to the big bone at the back of the neck."},
	{"shoulder height", pair("shoulder edge"), body.KindHeight, 8, "From the soles up to the bony edge of the shoulders."},
	{"armpit height", pair("armpit"), body.KindHeight, 12, "From the soles up to the armpits."},
	{"chest height", one("chest front"), body.KindHeight, 12, "From the soles up to the foremost place of the chest."},
	{"waist height", one("navel"), body.KindHeight, 8, "From the soles up to the navel."},
	{"hip height", one("hip back"), body.KindHeight, 12, "From the soles up to the greatest bulge of the buttocks."},
	{"crotch height", one("crotch"), body.KindHeight, 12, "From the soles up to the crotch."},
	{"knee height", pair("knee"), body.KindHeight, 6, "From the soles up to the middle of the knee caps."},
	{"shoulder breadth", pair("shoulder edge"), body.KindBreadth, 8, "Between the bony edges of the shoulders."},
	{"bideltoid breadth", pair("upper arm"), body.KindBreadth, 8, "Across both upper arms at the shoulder muscles, arms hanging."},
	{"waist breadth", pair("waist side"), body.KindBreadth, 6, "Across the trunk at the height of the navel."},
	{"hip breadth", pair("hip side"), body.KindBreadth, 10, "Across the hips where the buttocks bulge most."},
	{"chest depth", []string{"chest front", "chest back"}, body.KindDepth, 8, "From the foremost place of the chest straight back."},
	{"waist depth", []string{"waist front", "waist back"}, body.KindDepth, 7, "From front to back at the height of the navel."},
	{"hip depth", []string{"hip front", "hip back"}, body.KindDepth, 8, "From front to back where the buttocks bulge most."},
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
		m := measure{name: string(z.name), howTo: z.is, own: z.doubt, needs: z.of}
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
