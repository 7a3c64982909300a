package synth

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/internal/geom"
)

// Sitting is how pictures of a head truly came about. Angles and lengths that
// end in SD are standard deviations of how people stand and hold things.
type Sitting struct {
	Views         []photo.View
	Distance, F35 float64 // mm
	Width, Height int

	TurnSD, LeanSD float64 // of the camera: round the head; up, down and sideways; radians
	RulerDepthSD   float64 // of the ruler in front of or behind where it should be, mm
	RulerTiltSD    float64 // out of the picture's plane, radians
	RulerUpright   bool    // it is held upright, whichever way the camera leans; otherwise square to the camera

	Hair       float64 // mm that lie on crown, back and sides of the head
	Distortion float64 // radial: the share by which the picture's corners lie too far out
	ChinDrop   float64 // mm that the chin hangs lower in side pictures than in the others
}

// Usual is the sitting that the error figures are stated for: three pictures
// from 1.5 m with a phone of 12 megapixels.
func Usual() Sitting {
	const degree = math.Pi / 180
	return Sitting{
		Views:    []photo.View{photo.HeadFront, photo.HeadLeft, photo.HeadLeftQuarter},
		Distance: 1500, F35: 26, Width: 3000, Height: 4000,
		TurnSD: 6 * degree, LeanSD: 5 * degree, RulerDepthSD: 20, RulerTiltSD: 5 * degree,
	}
}

// Taken is one picture of a sitting: the truth.
type Taken struct {
	View    photo.View
	Camera  photo.Camera // in the head's axes
	Ruler   Ruler
	Seen    []Sighted
	sitting Sitting
}

// nominal is the yaw of a view.
func nominal(v photo.View) float64 {
	return map[photo.View]float64{photo.HeadLeft: math.Pi / 2, photo.HeadRight: -math.Pi / 2,
		photo.HeadLeftQuarter: math.Pi / 4, photo.HeadRightQuarter: -math.Pi / 4}[v]
}

// Take photographs a head.
func (s Sitting) Take(h *Head, chance *rand.Rand) []Taken {
	h = h.haired(s.Hair)
	var out []Taken
	for _, v := range s.Views {
		pose := Pose{Distance: s.Distance, Yaw: nominal(v) + s.TurnSD*chance.NormFloat64(),
			Pitch: s.LeanSD * chance.NormFloat64(), Roll: s.LeanSD * chance.NormFloat64()}
		pose.Target = r3.Vec{X: 30 * chance.NormFloat64(), Y: 30 * chance.NormFloat64(), Z: 10} // nobody aims well
		cam := pose.Camera(s.F35, s.Width, s.Height)
		posed := h
		if nominal(v) == math.Pi/2 || nominal(v) == -math.Pi/2 {
			posed = h.mouthOpen(s.ChinDrop)
		}
		out = append(out, Taken{v, cam, s.ruler(v, cam, chance), posed.Look(v, cam), s})
	}
	return out
}

// ruler stands beside the head: level with the ears in front pictures, before
// the face in the mid-plane in side pictures, level with the middle of the head
// in the others; its face nearly to the camera.
func (s Sitting) ruler(v photo.View, cam photo.Camera, chance *rand.Rand) Ruler {
	sin, cos := math.Sincos(nominal(v))
	face, right := r3.Vec{X: sin, Z: cos}, r3.Vec{X: cos, Z: -sin}
	beside := -175.0
	if v == photo.HeadRight {
		beside = 170
	} else if v == photo.HeadLeft {
		beside = -170
	}
	if v == photo.HeadLeftQuarter || v == photo.HeadRightQuarter { // as far away as the head, seen from this camera
		right, face = cam.Frame.X, r3.Scale(-1, cam.Frame.Z)
	}
	middle := r3.Add(r3.Scale(beside, right), r3.Scale(s.RulerDepthSD*chance.NormFloat64(), face))
	sinTilt, cosTilt := math.Sincos(s.RulerTiltSD * chance.NormFloat64())
	sinSlant, cosSlant := math.Sincos(s.RulerTiltSD * chance.NormFloat64())
	up := r3.Scale(-1, cam.Frame.Y)
	if s.RulerUpright {
		up = r3.Vec{Y: 1}
	}
	flat := r3.Add(r3.Scale(cosSlant, up), r3.Scale(sinSlant, cam.Frame.X))
	x := r3.Unit(r3.Add(r3.Scale(cosTilt, flat), r3.Scale(sinTilt, cam.Frame.Z)))
	z := r3.Unit(r3.Sub(r3.Scale(-1, cam.Frame.Z), r3.Scale(-r3.Dot(cam.Frame.Z, x), x)))
	f := geom.Frame{X: x, Y: r3.Cross(z, x), Z: z}
	f.O = r3.Sub(middle, r3.Scale(150, x))
	return Ruler{Frame: f, Length: 300}
}

// Hand is how marks are placed on pictures.
type Hand struct {
	Times float64 // the clicks' scatter, as a share of what photo takes for usual
	Along float64 // scatter along an outline, mm; across it the landmark's own scatter counts
	Ruler float64 // scatter of the ruler's figures, mm
}

// Usual hands; judgement. Steady ones make no error.
var (
	UsualHand  = Hand{Times: 1, Along: 4, Ruler: photo.RulerClick}
	SteadyHand = Hand{}
)

// Mark gives the shots as a maker would mark them.
func (h Hand) Mark(pictures []Taken, chance *rand.Rand) []photo.Shot {
	var out []photo.Shot
	for _, p := range pictures {
		out = append(out, h.mark(p, chance))
	}
	return out
}

func (h Hand) mark(p Taken, chance *rand.Rand) photo.Shot {
	s := photo.Shot{Name: p.View.String(), View: p.View, Width: p.sitting.Width, Height: p.sitting.Height, F35: p.sitting.F35, Lens: "one"}
	click := func(at r3.Vec, across, down float64) photo.Pixel {
		px := p.Camera.Focal / p.Camera.Frame.Local(at).Z
		c := p.bent(p.Camera.Project(at))
		return photo.Pixel{X: c.X + px*across*chance.NormFloat64(), Y: c.Y + px*down*chance.NormFloat64()}
	}
	s.Ruler = &photo.Ruler{From: click(p.Ruler.At(0), h.Ruler, h.Ruler), To: click(p.Ruler.At(p.Ruler.Length), h.Ruler, h.Ruler), Length: p.Ruler.Length}
	for _, m := range p.Seen {
		across := h.Times * m.Landmark.Click
		down := across
		switch {
		case m.Landmark.Rim() && m.Sideways:
			down = h.Along
		case m.Landmark.Rim():
			across = h.Along
		}
		s.Marks = append(s.Marks, photo.Mark{Name: m.Landmark.Name, At: click(m.Point, across, down)})
	}
	return s
}

// bent is where a lens with radial distortion puts a place.
func (p Taken) bent(at photo.Pixel) photo.Pixel {
	c := p.Camera.Centre
	x, y := at.X-c.X, at.Y-c.Y
	k := 1 + p.sitting.Distortion*(x*x+y*y)/(c.X*c.X+c.Y*c.Y)
	return photo.Pixel{X: c.X + k*x, Y: c.Y + k*y}
}

// haired is the head with hair on the skull; its lengths stay those of the bare
// head.
func (h *Head) haired(mm float64) *Head {
	if mm == 0 {
		return h
	}
	out := *h
	out.Skull.V = nil
	for i, n := range geom.VertexNormals(h.Skull) {
		v, thick := h.Skull.V[i], mm
		if v.Y < ears && v.Z > -20 { // the face
			thick = 0
		}
		out.Skull.V = append(out.Skull.V, r3.Add(v, r3.Scale(thick, n)))
	}
	return &out
}

// mouthOpen is the head with a lower chin.
func (h *Head) mouthOpen(mm float64) *Head {
	out := *h
	out.Points = map[string]r3.Vec{}
	for n, p := range h.Points {
		out.Points[n] = p
	}
	out.Points["chin"] = r3.Sub(out.Points["chin"], r3.Vec{Y: mm})
	return &out
}
