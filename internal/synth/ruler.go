package synth

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// Ruler is a flat ruler in the scene: x of its frame runs along it, y across
// towards the edge with the ticks, z out of its face. Its zero stands at the
// frame's origin.
type Ruler struct {
	Frame  geom.Frame
	Length float64 // from zero to the last figure, mm
}

// How a ruler is drawn, mm.
const (
	rulerWide  = 34.0
	rulerEnd   = 7.0 // beyond the first and last tick
	rulerThick = 3.0
	digitHigh  = 6.0
)

// At is where a figure of the ruler stands: the foot of its tick, on the edge.
func (r Ruler) At(mm float64) r3.Vec { return r.Frame.Point(r3.Vec{X: mm}) }

// Surface is the ruler as an object: the edge with the ticks is y = 0, the bar
// lies below it.
func (r Ruler) Surface() Surface {
	low := r3.Vec{X: -rulerEnd, Y: -rulerWide, Z: -rulerThick}
	high := r3.Vec{X: r.Length + rulerEnd}
	return Surface{Mesh: Box(r.Frame, low, high), Paint: func(p r3.Vec) Colour { return r.paint(r.Frame.Local(p)) }, Flat: true}
}

// paint is boxwood with black ticks every 5 mm and figures every 10: centimetres.
func (r Ruler) paint(p r3.Vec) Colour {
	wood, ink := RGB(0xE9C77B), RGB(0x1B1A18)
	if p.Z < -rulerThick/2 {
		return wood
	}
	five := math.Round(p.X / 5)
	if five < 0 || five*5 > r.Length {
		return wood
	}
	long, thick := 5.0, .45
	switch int(five) % 10 {
	case 0:
		long, thick = 12, .6
	case 2, 4, 6, 8:
		long = 9
	}
	if math.Abs(p.X-five*5) < thick && p.Y > -long {
		return ink
	}
	if cm := math.Round(p.X / 10); inFigure(strconv.Itoa(int(cm)), p.X-cm*10, p.Y+24, digitHigh) {
		return ink
	}
	return wood
}

// strokes are the ten digits as lines on a grid 2 wide and 4 high.
var strokes = [10][][4]float64{
	{{0, 0, 2, 0}, {2, 0, 2, 4}, {2, 4, 0, 4}, {0, 4, 0, 0}},
	{{1, 0, 1, 4}, {1, 4, .2, 3.2}},
	{{0, 4, 2, 4}, {2, 4, 2, 2.2}, {2, 2.2, 0, 0}, {0, 0, 2, 0}},
	{{0, 4, 2, 4}, {2, 4, 2, 0}, {2, 0, 0, 0}, {.5, 2.1, 2, 2.1}},
	{{1.5, 0, 1.5, 4}, {1.5, 4, 0, 1.3}, {0, 1.3, 2, 1.3}},
	{{2, 4, 0, 4}, {0, 4, 0, 2.3}, {0, 2.3, 2, 2.3}, {2, 2.3, 2, 0}, {2, 0, 0, 0}},
	{{1.8, 4, 0, 2}, {0, 2, 0, 0}, {0, 0, 2, 0}, {2, 0, 2, 2}, {2, 2, 0, 2}},
	{{0, 4, 2, 4}, {2, 4, .7, 0}},
	{{0, 0, 2, 0}, {2, 0, 2, 4}, {2, 4, 0, 4}, {0, 4, 0, 0}, {0, 2.1, 2, 2.1}},
	{{2, 2, 0, 2}, {0, 2, 0, 4}, {0, 4, 2, 4}, {2, 4, 2, 2}, {2, 2, .5, 0}},
}

// inFigure tells whether a place is on the ink of a number that is centred on
// x = 0 and stands on y = 0.
func inFigure(s string, x, y, high float64) bool {
	unit := high / 4
	for i, c := range s {
		left := (float64(i) - float64(len(s)-1)/2) * 2.9 * unit
		for _, l := range strokes[c-'0'] {
			a := r3.Vec{X: left + (l[0]-1)*unit, Y: l[1] * unit}
			b := r3.Vec{X: left + (l[2]-1)*unit, Y: l[3] * unit}
			if toSegment(r3.Vec{X: x, Y: y}, a, b) < .3*unit {
				return true
			}
		}
	}
	return false
}

// toSegment is the distance of a point from a straight line between two.
func toSegment(p, a, b r3.Vec) float64 {
	ab := r3.Sub(b, a)
	t := r3.Dot(r3.Sub(p, a), ab) / r3.Dot(ab, ab)
	return r3.Norm(r3.Sub(p, r3.Add(a, r3.Scale(min(1, max(0, t)), ab))))
}

// Box is a closed box between two corners of a frame, triangles outwards.
func Box(f geom.Frame, low, high r3.Vec) geom.Mesh {
	var m geom.Mesh
	for i := range 8 {
		p := low
		if i&1 != 0 {
			p.X = high.X
		}
		if i&2 != 0 {
			p.Y = high.Y
		}
		if i&4 != 0 {
			p.Z = high.Z
		}
		m.V = append(m.V, f.Point(p))
	}
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.T = append(m.T, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
	}
	return m
}
