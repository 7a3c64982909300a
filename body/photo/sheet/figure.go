package sheet

import (
	"math"

	"tasset/body/photo"
	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// sketch is a small line drawing: shapes in mm of a mean person, put on the page
// at a scale.
type sketch struct {
	origin r2.Vec // where the shapes' own origin stands on the page
	scale  float64
	items  []draw.Item
}

func (k *sketch) to(p r2.Vec) r2.Vec { return r2.Add(k.origin, r2.Scale(k.scale, p)) }

func (k *sketch) all(pts []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(pts))
	for i, p := range pts {
		out[i] = k.to(p)
	}
	return out
}

func (k *sketch) stroke(width float64, c draw.Color, pts ...r2.Vec) {
	k.items = append(k.items, line(width, c, k.all(pts)...))
}

// ring is a smooth closed line; it hides what lies under it.
func (k *sketch) ring(width float64, pts ...r2.Vec) {
	ring := geom.SmoothRing(pts, make([]bool, len(pts)), 4)
	k.items = append(k.items, &draw.Path{Subpaths: [][]r2.Vec{k.all(ring)}, Closed: true, Fill: &white, Stroke: draw.Style{Width: width}, Layer: "figure"})
}

func oval(c r2.Vec, rx, ry float64) []r2.Vec {
	pts := make([]r2.Vec, 16)
	for i := range pts {
		s, co := math.Sincos(2 * math.Pi * float64(i) / 16)
		pts[i] = r2.Add(c, r2.Vec{X: rx * co, Y: ry * s})
	}
	return pts
}

// mirrored are points of the right half, from the top down, and their mirror
// images back up; a point on the mid-line stands once.
func mirrored(half ...r2.Vec) []r2.Vec {
	out := append([]r2.Vec(nil), half...)
	for i := len(half) - 1; i >= 0; i-- {
		if half[i].X != 0 {
			out = append(out, r2.Vec{X: -half[i].X, Y: half[i].Y})
		}
	}
	return out
}

// ruler is an upright ruler of a length in mm, its lower left corner given.
func (k *sketch) ruler(corner r2.Vec, length, width float64) {
	far := r2.Add(corner, at(width, length))
	k.items = append(k.items, &draw.Path{
		Subpaths: [][]r2.Vec{k.all([]r2.Vec{corner, at(far.X, corner.Y), far, at(corner.X, far.Y)})},
		Closed:   true, Fill: &draw.Color{R: 250, G: 225, B: 150}, Stroke: draw.Style{Width: 0.25}, Layer: "figure",
	})
	for i := 1.0; i < 15; i++ {
		y := corner.Y + length*i/15
		k.stroke(0.15, black, at(corner.X, y), at(corner.X+width*0.4, y))
	}
}

// figureOf draws a view as it should be shot.
func figureOf(v photo.View, middle r2.Vec) []draw.Item {
	k := &sketch{origin: middle, scale: 0.16}
	switch v {
	case photo.HeadFront:
		k.front()
	case photo.HeadLeft:
		k.profile()
	case photo.HeadLeftQuarter:
		k.quarter()
	case photo.BodyFront:
		k.scale = 0.029
		k.standing()
	}
	return k.items
}

func (k *sketch) front() {
	k.stroke(0.35, black, at(-52, -70), at(-55, -122), at(-140, -158))
	k.stroke(0.35, black, at(52, -70), at(55, -122), at(140, -158))
	for _, s := range []float64{-1, 1} {
		k.ring(0.3, oval(at(s*78, 2), 9, 30)...)
	}
	k.ring(0.4, mirrored(at(0, 130), at(48, 115), at(75, 60), at(71, 0), at(63, -50), at(40, -86), at(0, -97))...)
	for _, s := range []float64{-1, 1} {
		k.ring(0.25, oval(at(s*32, 18), 14, 6)...)
		k.ring(0.25, oval(at(s*32, 18), 4, 5)...)
		k.stroke(0.25, black, at(s*14, 34), at(s*32, 40), at(s*50, 34))
	}
	k.stroke(0.25, black, at(-8, 8), at(-15, -26), at(0, -32), at(15, -26), at(8, 8))
	k.stroke(0.25, black, at(-25, -56), at(0, -58), at(25, -56))
	k.ruler(at(-122, -150), 300, 24)
}

func (k *sketch) profile() {
	k.stroke(0.35, black, at(-44, -78), at(-38, -125), at(-80, -158))
	k.stroke(0.35, black, at(62, -62), at(64, -122), at(100, -158))
	k.ring(0.4, at(-5, 130), at(-62, 110), at(-98, 60), at(-106, 36), at(-98, 24), at(-108, 4), at(-122, -18), at(-104, -30), at(-107, -47), at(-101, -57), at(-103, -78), at(-88, -96), at(-48, -80), at(-10, -62), at(58, -58), at(80, -20), at(91, 30), at(76, 92), at(40, 122))
	k.ring(0.3, oval(at(14, 0), 15, 30)...)
	k.stroke(0.25, black, at(-93, 24), at(-76, 18), at(-91, 12))
	k.stroke(0.25, black, at(-103, -52), at(-84, -55))
	k.ruler(at(-172, -150), 300, 24)
}

func (k *sketch) quarter() {
	k.stroke(0.35, black, at(-42, -80), at(-42, -124), at(-118, -158))
	k.stroke(0.35, black, at(66, -62), at(70, -122), at(124, -158))
	k.ring(0.4, at(2, 130), at(-52, 112), at(-80, 60), at(-80, 34), at(-73, 20), at(-72, -10), at(-66, -50), at(-60, -82), at(-38, -97), at(10, -82), at(64, -50), at(88, 0), at(92, 50), at(60, 112))
	k.ring(0.3, oval(at(66, 0), 13, 30)...)
	k.ring(0.25, oval(at(-62, 18), 8, 6)...)
	k.ring(0.25, oval(at(-63, 18), 3, 5)...)
	k.ring(0.25, oval(at(-14, 18), 14, 6)...)
	k.ring(0.25, oval(at(-18, 18), 4, 5)...)
	k.stroke(0.25, black, at(-72, 36), at(-62, 40), at(-54, 35))
	k.stroke(0.25, black, at(-32, 35), at(-14, 40), at(4, 33))
	k.stroke(0.25, black, at(-50, 18), at(-62, -22), at(-46, -32), at(-32, -26))
	k.stroke(0.25, black, at(-60, -56), at(-42, -58), at(-16, -55))
	k.ruler(at(-134, -150), 300, 24)
}

func (k *sketch) standing() {
	k.ring(0.35, mirrored(at(0, 1500), at(60, 1470), at(190, 1400), at(235, 1300), at(330, 850), at(350, 730), at(300, 760), at(195, 1180), at(160, 1030), at(180, 850), at(170, 500), at(150, 90), at(165, 10), at(90, 10), at(85, 480), at(20, 790), at(0, 800))...)
	k.ring(0.35, mirrored(at(0, 1720), at(70, 1660), at(70, 1560), at(40, 1500), at(0, 1488))...)
	k.ruler(at(430, 700), 400, 60)
	k.stroke(0.2, grey, at(-500, 0), at(560, 0))
}

// planOf draws from above where camera and ruler stand for a view. The dashed
// line through the ruler is as far from the camera as what is measured.
func planOf(v photo.View, middle r2.Vec) []draw.Item {
	k := &sketch{origin: r2.Add(middle, at(0, 9)), scale: 0.15}
	k.stroke(0.2, blue, at(-165, 0), at(165, 0))
	k.items[0].(*draw.Path).Stroke.Dash = []float64{2, 1}
	ruler := 0.0
	switch v {
	case photo.BodyFront:
		k.shoulders()
		ruler = 150
	case photo.HeadLeft:
		k.above(math.Pi / 2)
		ruler = -165
	case photo.HeadLeftQuarter:
		k.above(math.Pi / 4)
		ruler = -140
	default:
		k.above(0)
		ruler = -122
	}
	k.box(at(ruler, 0), 28, 12, draw.Color{R: 250, G: 225, B: 150})
	k.stroke(0.2, grey, at(0, -210), at(-110, -35))
	k.stroke(0.2, grey, at(0, -210), at(110, -35))
	k.box(at(0, -232), 70, 30, white)
	k.box(at(0, -212), 26, 14, white)
	return k.items
}

func (k *sketch) box(c r2.Vec, w, h float64, fill draw.Color) {
	k.items = append(k.items, &draw.Path{
		Subpaths: [][]r2.Vec{k.all([]r2.Vec{r2.Add(c, at(-w/2, -h/2)), r2.Add(c, at(w/2, -h/2)), r2.Add(c, at(w/2, h/2)), r2.Add(c, at(-w/2, h/2))})},
		Closed:   true, Fill: &fill, Stroke: draw.Style{Width: 0.3}, Layer: "figure",
	})
}

// above is a head from above that faces down the page, turned clockwise.
func (k *sketch) above(turn float64) {
	rot := func(pts []r2.Vec) []r2.Vec { return geom.Turned(-turn, r2.Vec{}).ApplyAll(pts) }
	for _, s := range []float64{-1, 1} {
		k.ring(0.3, rot(oval(at(s*78, 0), 8, 13))...)
	}
	k.ring(0.4, rot(mirrored(at(0, 92), at(55, 72), at(76, 10), at(62, -66), at(14, -102), at(0, -122)))...)
}

// shoulders are a body from above, smaller.
func (k *sketch) shoulders() {
	k.scale *= 0.5
	for _, s := range []float64{-1, 1} {
		k.ring(0.3, oval(at(s*245, 0), 45, 55)...)
	}
	k.ring(0.35, oval(r2.Vec{}, 210, 115)...)
	k.ring(0.35, mirrored(at(0, 92), at(55, 72), at(76, 10), at(62, -66), at(14, -102), at(0, -122))...)
	k.scale *= 2
}
