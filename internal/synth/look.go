package synth

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/internal/geom"
)

// Sighted is a landmark of a head as a picture shows it.
type Sighted struct {
	Landmark photo.Landmark
	At       photo.Pixel
	Point    r3.Vec // where it is, or the place of the outline, in head axes
	Sideways bool   // a rim whose distance across the outline is u; of other rims it is v
}

// Look gives the landmarks of a head that a view shows, in the order of photo's
// table: points where they are, if nothing hides them; rims where the outline
// that this camera sees is outermost, which is not the same place of the skull
// in every picture. The camera is in head axes.
func (h *Head) Look(view photo.View, cam photo.Camera) []Sighted {
	var out []Sighted
	for _, l := range photo.HeadLandmarks() {
		p, ok := h.Points[l.Name]
		if !ok || !l.SeenIn(view) {
			continue
		}
		sideways := false
		if l.Rim() {
			p, sideways = h.rim(l.Name, view, cam)
		} else if h.hidden(cam.Frame.O, p) {
			if p, ok = h.profile(l, view, cam); !ok {
				continue
			}
		}
		out = append(out, Sighted{l, cam.Project(p), p, sideways})
	}
	return out
}

// hidden tells whether something of the head stands in front of a place, and
// also in front of a pin's head that stands a little off the skin there:
// landmarks that were moved may lie under it.
func (h *Head) hidden(eye, p r3.Vec) bool {
	const pin, close = 4, 2 // mm
	tri, at := h.hides().Nearest(p)
	v, t := h.Solid.V, h.Solid.T[tri]
	out := r3.Unit(r3.Cross(r3.Sub(v[t[1]], v[t[0]]), r3.Sub(v[t[2]], v[t[0]])))
	return h.blocked(eye, p, close) && h.blocked(eye, r3.Add(at, r3.Scale(pin, out)), close)
}

// blocked tells whether the head is met on the way to p, before its last mm.
func (h *Head) blocked(eye, p r3.Vec, last float64) bool {
	way := r3.Norm(r3.Sub(p, eye))
	t, _, hit := h.hides().Hit(eye, r3.Unit(r3.Sub(p, eye)))
	return hit && t < way-last
}

// profile is where a mid-line landmark is taken for in a side picture that shows
// the face a little from behind: on the outline, at the same height.
func (h *Head) profile(l photo.Landmark, view photo.View, cam photo.Camera) (p r3.Vec, ok bool) {
	if l.Pair != "" || view != photo.HeadLeft && view != photo.HeadRight {
		return p, false
	}
	var m geom.Mesh
	for _, line := range geom.Slice(h.Solid, h.Points[l.Name], r3.Vec{Y: 1}) {
		if line[0].Z > 0 {
			m.V = append(m.V, line[0])
		}
	}
	sign := 1.0
	if view == photo.HeadLeft {
		sign = -1
	}
	if len(m.V) == 0 {
		return p, false
	}
	return outermost(m, func(v r3.Vec) float64 { return sign * cam.Project(v).X }), true
}

// rim is the vertex whose image is outermost. A front picture shows the
// wearer's left on the right, a left side picture the back of the head.
func (h *Head) rim(name string, view photo.View, cam photo.Camera) (p r3.Vec, sideways bool) {
	m, sign := h.Skull, 1.0
	switch name {
	case "crown":
		return outermost(m, func(v r3.Vec) float64 { return -cam.Project(v).Y }), false
	case "left side of the head":
		m = h.above(ears)
	case "right side of the head":
		m, sign = h.above(ears), -1
	case "back of the head":
		m = h.above(nape)
		if view == photo.HeadRight {
			sign = -1
		}
	}
	return outermost(m, func(v r3.Vec) float64 { return sign * cam.Project(v).X }), true
}

func outermost(m geom.Mesh, out func(r3.Vec) float64) r3.Vec {
	return slices.MaxFunc(m.V, func(a, b r3.Vec) int { return compare(out(a), out(b)) })
}

// Seen is a camera in the axes of a frame.
func Seen(cam photo.Camera, f geom.Frame) photo.Camera {
	c := cam.Frame
	cam.Frame = geom.Frame{O: f.Local(c.O), X: f.LocalDir(c.X), Y: f.LocalDir(c.Y), Z: f.LocalDir(c.Z)}
	return cam
}
