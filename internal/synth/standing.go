package synth

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
)

// Standing is a body form whose landmarks can be seen by a camera.
type Standing struct {
	form    *body.Form
	midline []r3.Vec // skin of trunk and neck near x = 0
	head    []r3.Vec // skin of the head above the ears
}

// NewStanding prepares a body form.
func NewStanding(f *body.Form) *Standing {
	s := &Standing{form: f}
	for _, seg := range []body.Segment{body.Torso, body.Neck} {
		p := s.part(seg, body.Both)
		for _, v := range p.Mesh().V {
			s.midline = append(s.midline, p.Frame.Point(v))
		}
	}
	s.midline = slices.DeleteFunc(s.midline, func(v r3.Vec) bool { return math.Abs(v.X) > 10 })
	head := s.part(body.Head, body.Both)
	for _, v := range head.Mesh().V {
		if v.Y > 0 {
			s.head = append(s.head, head.Frame.Point(v))
		}
	}
	return s
}

// onMidline is the skin on the mid-line at a height, in front (1) or behind (-1).
func (s *Standing) onMidline(y, way float64) r3.Vec {
	const step = 6 // mm: rings of a mesh are nearer than that
	best := r3.Vec{Y: y, Z: -way * 1000}
	for _, v := range s.midline {
		if math.Abs(v.Y-y) < step && way*v.Z > way*best.Z {
			best.Z = v.Z
		}
	}
	return best
}

// Mark is where a landmark of photo.BodyLandmarks lies, in body axes, as a
// careful maker sees it: outlines are the outermost places that the camera sees
// at their level. The level, which is found by eye, is lift mm too high.
func (s *Standing) Mark(landmark string, cam photo.Camera, lift float64) r3.Vec {
	name, side, out := sided(landmark)
	torso := s.part(body.Torso, body.Both)
	ring := func(p *body.Part, station string, way r3.Vec) r3.Vec {
		return seenOutmost(p, level(p, station)+lift, cam, way)
	}
	switch name {
	case "crown":
		return highest(s.head, cam)
	case "chin":
		return skinAt(s.part(body.Head, body.Both), 0, "chin")
	case "neck bone":
		return s.onMidline(s.size("back neck height"), -1)
	case "neck pit":
		return s.onMidline(s.size("front neck height"), 1)
	case "shoulder edge":
		return skinAt(torso, out*math.Pi/2, "shoulder")
	case "upper arm":
		return ring(s.part(body.UpperArm, side), "deltoid", r3.Vec{X: out})
	case "armpit":
		return skinAt(torso, out*math.Pi/2, "armpit")
	case "upper chest":
		return ring(torso, "shoulder", r3.Vec{Z: 1})
	case "upper back":
		return ring(torso, "shoulder", r3.Vec{Z: -1})
	case "chest front":
		return ring(torso, "chest", r3.Vec{Z: 1})
	case "chest back":
		return ring(torso, "chest", r3.Vec{Z: -1})
	case "navel":
		return skinAt(torso, 0, "waist")
	case "waist front":
		return ring(torso, "waist", r3.Vec{Z: 1})
	case "waist back":
		return ring(torso, "waist", r3.Vec{Z: -1})
	case "waist side":
		return ring(torso, "waist", r3.Vec{X: out})
	case "hip front":
		return ring(torso, "hip", r3.Vec{Z: 1})
	case "hip back":
		return ring(torso, "hip", r3.Vec{Z: -1})
	case "hip side":
		return ring(torso, "hip", r3.Vec{X: out})
	case "crotch":
		return torso.Centre(level(torso, "crotch"))
	case "wrist":
		p := s.part(body.Forearm, side)
		return p.Frame.Point(p.Centre(level(p, "wrist")))
	case "knee":
		return skinAt(s.part(body.Thigh, side), 0, "knee")
	case "ankle":
		p := s.part(body.Shank, side)
		return p.Frame.Point(p.Point(out*math.Pi/2, 0))
	case "toe", "heel":
		p := s.part(body.Foot, side)
		v := p.Frame.Point(p.Centre(level(p, map[string]string{"toe": "toe tip", "heel": "heel"}[name])))
		v.Y = 0
		return v
	}
	panic("synth: no place on a body for " + landmark)
}

// BodySizes are the sizes of the form as callipers and rods find them on it:
// what the pictures of it should give. A form keeps arms clear of the trunk, so
// its breadth over the upper arms is more than the one it was built from.
func (s *Standing) BodySizes() map[body.Name]float64 {
	out := map[body.Name]float64{}
	for _, n := range []body.Name{"stature", "front neck height", "back neck height", "ankle height"} {
		out[n] = s.size(n)
	}
	torso := s.part(body.Torso, body.Both)
	for n, station := range map[body.Name]string{"shoulder height": "shoulder", "armpit height": "armpit", "chest height": "chest",
		"waist height": "waist", "hip height": "hip", "crotch height": "crotch"} {
		out[n] = level(torso, station)
	}
	for n, station := range map[body.Name]string{"chest depth": "chest", "waist depth": "waist", "hip depth": "hip"} {
		out[n] = torso.Section(level(torso, station)).Depth()
	}
	for n, station := range map[body.Name]string{"waist breadth": "waist", "hip breadth": "hip", "shoulder breadth": "shoulder"} {
		out[n] = torso.Section(level(torso, station)).Breadth
	}
	left := s.part(body.Thigh, body.Left)
	out["knee height"] = skinAt(left, 0, "knee").Y
	arm := s.part(body.UpperArm, body.Left)
	var far float64
	for a := range 720 {
		far = max(far, arm.Frame.Point(arm.Point(float64(a)*math.Pi/360, level(arm, "deltoid"))).X)
	}
	out["bideltoid breadth"] = 2 * far
	return out
}

func (s *Standing) part(seg body.Segment, side body.Side) *body.Part {
	p, _ := s.form.Part(seg, side)
	return p
}

func (s *Standing) size(n body.Name) float64 {
	m, _ := s.form.Measurements().Get(n, body.Both)
	return m.Value
}

// sided takes "left" or "right" off a name; out is +1 on the left.
func sided(name string) (rest string, side body.Side, out float64) {
	switch {
	case strings.HasPrefix(name, "left "):
		return strings.TrimPrefix(name, "left "), body.Left, 1
	case strings.HasPrefix(name, "right "):
		return strings.TrimPrefix(name, "right "), body.Right, -1
	}
	return name, body.Both, 0
}

func level(p *body.Part, station string) float64 {
	y, ok := p.Station(station)
	if !ok {
		panic("synth: no station " + station)
	}
	return y
}

func skinAt(p *body.Part, angle float64, station string) r3.Vec {
	return p.Frame.Point(p.Point(angle, level(p, station)))
}

// seenOutmost is the place of a part's skin at a level that a camera sees furthest
// in a direction: the tangent from the lens.
func seenOutmost(p *body.Part, level float64, cam photo.Camera, way r3.Vec) r3.Vec {
	sign := math.Copysign(1, r3.Dot(cam.Frame.X, way))
	return farthestSeen(720, func(i int) r3.Vec { return p.Frame.Point(p.Point(float64(i)*math.Pi/360, level)) },
		func(v r3.Vec) float64 { return sign * cam.Project(v).X })
}

// highest is the point that a camera sees highest in the picture.
func highest(points []r3.Vec, cam photo.Camera) r3.Vec {
	return farthestSeen(len(points), func(i int) r3.Vec { return points[i] }, func(v r3.Vec) float64 { return -cam.Project(v).Y })
}

func farthestSeen(n int, at func(int) r3.Vec, far func(r3.Vec) float64) r3.Vec {
	best, most := at(0), math.Inf(-1)
	for i := range n {
		v := at(i)
		if d := far(v); d > most {
			best, most = v, d
		}
	}
	return best
}
