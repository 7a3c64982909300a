package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// A drawn seam cuts a panel in two that share its line: the panel is trimmed
// twice, with what lies on either side of the line taken off.

// split is a drawn seam on one panel, run along on one of its sides.
type split struct {
	index int // of the raw seam
	line  []r2.Vec
	back  bool // the other side: the stroke runs against the line
}

// mostAcross is how many drawn seams may run across one panel.
const mostAcross = 4

// seamEnd is how far a drawn seam is carried on past its ends, mm, so that it
// runs over the edges at which it is meant to end, and seamSlip how far it may
// have been drawn past one (judgement).
const (
	seamEnd  = 12.0
	seamSlip = 10.0
)

// addSeam makes a raw seam of a line across a panel, and the lines along which
// its two sides are cut.
func (m *blanks) addSeam(s chain) [2]chain {
	of := s.strokes[0]
	m.seams = append(m.seams, rawSeam{kind: Butt, line: of.bent})
	one, other := of, of
	one.seam = &split{index: len(m.seams) - 1, line: of.pts}
	other.seam = &split{index: len(m.seams) - 1, line: of.pts, back: true}
	other.pts = geom.Reversed(of.pts)
	return [2]chain{
		{strokes: []stroke{one}, start: s.start, end: s.end},
		{strokes: []stroke{other}, start: s.end, end: s.start},
	}
}

// stretch is where a stroke lies along the seam.
func (s *split) stretch(pts []r2.Vec) (from, to float64) {
	a, b := s.position(pts[0]), s.position(pts[len(pts)-1])
	return min(a, b), max(a, b)
}

func (s *split) position(p r2.Vec) float64 {
	best, at, sum := math.Inf(1), 0.0, 0.0
	for i := 0; i+1 < len(s.line); i++ {
		q, t := geom.NearestOnSegment(p, s.line[i], s.line[i+1])
		l := geom.Dist(s.line[i], s.line[i+1])
		if d := geom.Dist(p, q); d < best {
			best, at = d, sum+t*l
		}
		sum += l
	}
	return at
}
