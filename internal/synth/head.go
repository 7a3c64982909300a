package synth

import (
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
)

// Head is a head whose landmarks and sizes are known. Its axes are those of a
// level head (photo.HeadFrame of its own landmarks): the origin between the
// tragions, x to the wearer's left, y up, z forward.
type Head struct {
	Skull  geom.Mesh         // skin without ears and nose, down to the nape: rims are sought on it
	Solid  geom.Mesh         // all that can hide something
	Points map[string]r3.Vec // landmarks by photo's names, rims as a calliper finds them
	Place  geom.Frame        // bodyFromHead
	Up     r3.Vec            // which way is up when this person looks straight ahead
	Sex    body.Sex
	Tape   float64 // what a tape round brow and back of the head reads, mm; 0: as round the bare skull

	hides func() *geom.Locator // of Solid
}

// FormHead is the head of a body form that nothing is worn on, with landmarks on
// its skin.
func FormHead(f *body.Form) *Head {
	head, _ := f.Part(body.Head, body.Both)
	h := &Head{Points: map[string]r3.Vec{}, Place: head.Frame, Up: r3.Vec{Y: 1}}
	for i, m := range Solids(head.Worn()) { // the skin, the nose, the ears
		if i == 0 {
			h.Skull = m
		}
		h.Solid.Append(m)
	}
	h.place(f, head)
	return h.levelled()
}

// toFrame is a mesh in the axes of a frame.
func toFrame(m geom.Mesh, f geom.Frame) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = f.Local(v)
	}
	return out
}

// place finds the landmarks of a form's head on its skin. Breadths of eyes and
// mouth are those of the survey of faces that the mean head of photo leaves to
// judgement too.
func (h *Head) place(f *body.Form, head *body.Part) {
	level := func(name string) float64 { l, _ := head.Station(name); return l }
	size := func(n body.Name) float64 { m, _ := f.Measurements().Get(n, body.Both); return m.Value }
	front := func(x, y float64) r3.Vec { return meets(h.Solid, r3.Vec{X: x, Y: y, Z: 500}, r3.Vec{Z: -1}) }
	side := func(y, z, way float64) r3.Vec {
		return meets(h.Skull, r3.Vec{X: 500 * way, Y: y, Z: z}, r3.Vec{X: -way})
	}
	base, chin := level("nose base"), level("chin")
	eye := head.Frame.Local(f.Eyes()[0])
	for word, way := range map[string]float64{"left ": 1, "right ": -1} {
		h.Points[word+"pupil"] = front(way*eye.X, eye.Y)
		h.Points[word+"inner eye corner"] = front(way*(eye.X-14), eye.Y)
		h.Points[word+"outer eye corner"] = front(way*(eye.X+14), eye.Y)
		h.Points[word+"mouth corner"] = front(way*24, level("mouth")+2.5)
		h.Points[word+"tragion"] = side(0, .15*size("ear breadth")+2, way) // in front of the solid ear, which has no notch
		h.Points[word+"cheekbone"] = side(-2, 20, way)
	}
	length := size("face length")
	h.Points["brow middle"] = front(0, level("brow"))
	h.Points["nose root"] = front(0, chin+length)
	h.Points["nose tip"] = h.farthest(r3.Vec{Z: 1}, h.Solid)
	h.Points["nose base"] = meets(h.Skull, r3.Vec{Y: base - 3, Z: 500}, r3.Vec{Z: -1})
	h.Points["chin"] = meets(h.Skull, r3.Vec{Y: chin, Z: 500}, r3.Vec{Z: -1})
}

// meets is where a level ray first meets the mesh; it must. Only triangles at
// its height can.
func meets(m geom.Mesh, from, dir r3.Vec) r3.Vec {
	near := geom.Mesh{V: m.V}
	for _, t := range m.T {
		a, b, c := m.V[t[0]].Y, m.V[t[1]].Y, m.V[t[2]].Y
		if min(a, b, c) <= from.Y && from.Y <= max(a, b, c) {
			near.T = append(near.T, t)
		}
	}
	t, _, ok := geom.NewLocator(near).Hit(from, dir)
	if !ok {
		panic("synth: a ray that should meet the body misses it")
	}
	return r3.Add(from, r3.Scale(t, dir))
}

// farthest vertex of a mesh in a direction.
func (h *Head) farthest(dir r3.Vec, m geom.Mesh) r3.Vec {
	return slices.MaxFunc(m.V, func(a, b r3.Vec) int { return compare(r3.Dot(a, dir), r3.Dot(b, dir)) })
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// levelled turns the head into its own level axes and finds the rim landmarks
// there as a calliper does.
func (h *Head) levelled() *Head {
	p := h.Points
	f := photo.HeadFrame(p["left tragion"], p["right tragion"], p["left outer eye corner"], p["right outer eye corner"])
	place := geom.Frame{O: h.Place.Point(f.O), X: h.Place.Dir(f.X), Y: h.Place.Dir(f.Y), Z: h.Place.Dir(f.Z)}
	out := &Head{Skull: toFrame(h.Skull, f), Solid: toFrame(h.Solid, f), Points: map[string]r3.Vec{}, Place: place, Up: f.LocalDir(h.Up), Sex: h.Sex, Tape: h.Tape}
	for n, v := range p {
		out.Points[n] = f.Local(v)
	}
	out.hides = sync.OnceValue(func() *geom.Locator { return geom.NewLocator(out.Solid) })
	out.callipers()
	return out
}

// callipers finds crown, back and sides of the head as upright boards do: the
// highest place, the hindmost above the nape, the outermost above the ears.
func (h *Head) callipers() {
	h.Points["crown"] = h.farthest(r3.Vec{Y: 1}, h.Skull)
	h.Points["back of the head"] = h.farthest(r3.Vec{Z: -1}, h.above(nape))
	h.Points["left side of the head"] = h.farthest(r3.Vec{X: 1}, h.above(ears))
	h.Points["right side of the head"] = h.farthest(r3.Vec{X: -1}, h.above(ears))
}

// Levels over the tragions, mm: the skull's length is taken above the nape, its
// breadth and girth above the ears.
const (
	nape = -40
	ears = 25
)

// above is the skull's vertices above a level; the triangles are left out.
func (h *Head) above(level float64) geom.Mesh {
	var m geom.Mesh
	for _, v := range h.Skull.V {
		if v.Y > level {
			m.V = append(m.V, v)
		}
	}
	return m
}

// Lengths of the head, by photo's names. From ear and eye to the crown it is
// upwards as this person holds the head, not as photo's level head.
func (h *Head) Lengths() map[string]float64 {
	p := h.Points
	d := func(a, b string) float64 { return r3.Norm(r3.Sub(p[a], p[b])) }
	return map[string]float64{
		"head length":    p["brow middle"].Z - p["back of the head"].Z,
		"head breadth":   p["left side of the head"].X - p["right side of the head"].X,
		"face length":    d("nose root", "chin"),
		"face breadth":   d("left cheekbone", "right cheekbone"),
		"pupil distance": d("left pupil", "right pupil"),
		"ear to crown":   r3.Dot(h.Up, h.farthest(h.Up, h.Skull)),
		"eye to crown":   r3.Dot(h.Up, r3.Sub(h.farthest(h.Up, h.Skull), geom.Lerp(p["left outer eye corner"], p["right outer eye corner"], .5))),
		"ear to ear":     d("left tragion", "right tragion"),
		"chin to crown":  p["crown"].Y - p["chin"].Y,
		"head girth":     h.girth(),
	}
}

// girth is what a tape reads: on a bare skull the largest over the brow middle
// and above the ears, bridging hollows.
func (h *Head) girth() float64 {
	if h.Tape > 0 {
		return h.Tape
	}
	brow, best := h.Points["brow middle"], 0.0
	for tilt := -14.0; tilt <= 14; tilt += 2 {
		sin, cos := math.Sincos(tilt * math.Pi / 180)
		if brow.Y-brow.Z*sin/cos < ears {
			continue
		}
		f := geom.Frame{O: brow, X: r3.Vec{X: 1}, Y: r3.Vec{Y: cos, Z: -sin}, Z: r3.Vec{Y: sin, Z: cos}}
		for _, loop := range geom.Chain(geom.Slice(h.Skull, f.O, f.Y)) {
			best = max(best, geom.Perimeter(geom.Hull(flat(loop, f))))
		}
	}
	return best
}
