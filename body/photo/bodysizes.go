package photo

import "tasset/body"

// bodySize is a measurement as a picture of a whole body shows it: a weighted
// sum of coordinates of landmarks. Of a pair that is marked on one side only,
// that side counts.
type bodySize struct {
	name  body.Name
	terms []sizeTerm
	doubt float64 // mm: what clothes, stance and breath add to the marks' own deviation
}

// sizeTerm is k times a coordinate of a landmark, or of the mean of a pair.
type sizeTerm struct {
	landmark string // "knee" stands for left and right knee
	axis     int
	k        float64
}

// bodySizes are the measurements that whole-body views give, by the survey's
// definitions. Missing on purpose: the chest's breadth, which is taken on the
// ribs under the arms, where an outline shows muscle and arm; foot length, as
// feet turn out and wear shoes; and all girths. The doubts are judgement for
// close-fitting clothes and bare feet, and are told to the maker.
var bodySizes = []bodySize{
	height("stature", "crown", 8),
	height("front neck height", "neck pit", 8),
	height("back neck height", "neck bone", 10),
	height("shoulder height", "shoulder edge", 8),
	height("armpit height", "armpit", 12),
	height("chest height", "chest front", 12),
	height("waist height", "navel", 8),
	height("hip height", "hip back", 12),
	height("crotch height", "crotch", 12),
	height("knee height", "knee", 6),
	height("ankle height", "ankle", 5),
	breadth("shoulder breadth", "shoulder edge", 8),
	breadth("bideltoid breadth", "upper arm", 6),
	breadth("waist breadth", "waist side", 6),
	breadth("hip breadth", "hip side", 8),
	depth("chest depth", "chest front", "chest back", 8),
	depth("waist depth", "waist front", "waist back", 6),
	depth("hip depth", "hip front", "hip back", 6),
}

func height(n body.Name, landmark string, doubt float64) bodySize {
	return bodySize{n, []sizeTerm{{landmark, 1, 1}}, doubt}
}

func breadth(n body.Name, pair string, doubt float64) bodySize {
	return bodySize{n, []sizeTerm{{"left " + pair, 0, 1}, {"right " + pair, 0, -1}}, doubt}
}

func depth(n body.Name, front, back string, doubt float64) bodySize {
	return bodySize{n, []sizeTerm{{front, 2, 1}, {back, 2, -1}}, doubt}
}
