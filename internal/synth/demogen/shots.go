package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
	"tasset/internal/synth"
)

// The size of the pictures: a phone's proportions, few enough pixels for small
// files.
const width, height = 1500, 2000

// shot is one picture of Wren: who stands where.
type shot struct {
	file  string
	view  photo.View
	f35   int
	yaw   float64 // how she is turned in the room, radians
	pose  synth.Pose
	ruler synth.Ruler
	arm   r3.Vec // where the arm of the stand that holds the ruler comes from; zero: none
}

const degree = math.Pi / 180

// shots are the four pictures, held as people hold them: a few degrees off, the
// ruler not quite where it should be.
func shots(f *body.Form) []shot {
	head, _ := f.Part(body.Head, body.Both)
	at := func(x, y, z float64) r3.Vec { return head.Frame.Point(r3.Vec{X: x, Y: y, Z: z}) }
	middle := at(0, -15, 20)
	hand, _ := f.Part(body.Hand, body.Left)
	held := hand.Frame.Point(r3.Vec{X: 56, Y: 210, Z: -14})
	return []shot{
		{"head-front", photo.HeadFront, 70, 0, synth.Pose{Distance: 1530, Yaw: 1.8 * degree, Pitch: 1.1 * degree, Roll: -.7 * degree, Target: middle},
			upright(at(-132, -122, 11), 0, 3*degree, -2*degree), at(-600, 10, 0)},
		{"head-left", photo.HeadLeft, 70, 90 * degree, synth.Pose{Distance: 1480, Yaw: 87.6 * degree, Pitch: .6 * degree, Roll: .9 * degree, Target: middle},
			upright(at(9, -140, 172), 90*degree, -2*degree, 3.5*degree), at(0, 0, 700)},
		{"head-quarter", photo.HeadLeftQuarter, 70, 45 * degree, synth.Pose{Distance: 1560, Yaw: 47.5 * degree, Pitch: 1.6 * degree, Roll: .4 * degree, Target: middle},
			upright(at(-116, -120, 118), 45*degree, 2.5*degree, 2*degree), at(-500, 30, 500)},
		{"body-front", photo.BodyFront, 50, 0, synth.Pose{Distance: 3210, Yaw: -1.2 * degree, Pitch: .5 * degree, Roll: .5 * degree, Target: r3.Vec{X: 15, Y: 890}},
			hanging(upright(held, 0, 2*degree, -11*degree)), r3.Vec{}},
	}
}

// upright is a 300 mm ruler that stands on a place, its face turned by yaw from
// the front to the wearer's left; lean tips its head away along the view, slant
// to the side. Its ticks are on the picture's left.
func upright(foot r3.Vec, yaw, lean, slant float64) synth.Ruler {
	sinYaw, cosYaw := math.Sincos(yaw)
	face := r3.Vec{X: sinYaw, Z: cosYaw}
	right := r3.Vec{X: cosYaw, Z: -sinYaw}
	sinLean, cosLean := math.Sincos(lean)
	sinSlant, cosSlant := math.Sincos(slant)
	up := r3.Vec{Y: 1}
	along := r3.Add(r3.Scale(cosSlant, up), r3.Scale(sinSlant, right))
	across := r3.Sub(r3.Scale(cosSlant, right), r3.Scale(sinSlant, up))
	x := r3.Sub(r3.Scale(cosLean, along), r3.Scale(sinLean, face))
	out := r3.Add(r3.Scale(cosLean, face), r3.Scale(sinLean, along))
	// Figures are read with the head of the ruler to the left: y is to the left
	// of the run as seen, so the ticks' edge lies at the picture's left.
	return synth.Ruler{Frame: geom.Frame{O: foot, X: x, Y: r3.Scale(-1, across), Z: out}, Length: 300}
}

// hanging is a ruler with its zero up and its ticks on the other side.
func hanging(r synth.Ruler) synth.Ruler {
	r.Frame.X, r.Frame.Y = r3.Scale(-1, r.Frame.X), r3.Scale(-1, r.Frame.Y)
	return r
}

// stand is the dark arm that holds the ruler by its middle from behind.
func (s shot) stand() synth.Surface {
	from := s.ruler.Frame.Point(r3.Vec{X: s.ruler.Length / 2, Y: -17, Z: -9})
	z := r3.Unit(r3.Sub(s.arm, from))
	x := r3.Unit(r3.Cross(r3.Vec{Y: 1}, z))
	f := geom.Frame{O: from, X: x, Y: r3.Cross(z, x), Z: z}
	long := r3.Norm(r3.Sub(s.arm, from))
	return synth.Surface{Mesh: synth.Box(f, r3.Vec{X: -5, Y: -5, Z: -12}, r3.Vec{X: 5, Y: 5, Z: long}), Paint: synth.Plain(synth.RGB(0x3A3D40)), Flat: true}
}

// take renders the picture.
func (s shot) take(figure []synth.Surface) (photo.Camera, *synth.Scene) {
	scene := &synth.Scene{Behind: wall}
	scene.Surfaces = append(append(scene.Surfaces, figure...), room(s.yaw)...)
	scene.Add(s.ruler.Surface())
	if s.arm != (r3.Vec{}) {
		scene.Add(s.stand())
	}
	return s.pose.Camera(float64(s.f35), width, height), scene
}
