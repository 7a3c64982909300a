package body

import (
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
	"tasset/internal/report"
)

// Form is one body in its rest pose: parts of closed convex sections along
// bowed axes, with what is worn on them. It does not change once made.
type Form struct {
	m       *Measurements
	layers  []Layer
	posture Posture
	levels  heights
	parts   []*Part
	joints  []Joint
	eyes    [2]r3.Vec
}

// builder gathers a form's parts as they are placed on each other.
type builder struct {
	sizes  *sizes
	trunk  *trunk
	face   *face
	parts  []*Part
	joints []Joint
}

func (b *builder) add(seg Segment, side Side, frame geom.Frame, l *loft) *Part {
	p := newPart(seg, side, frame, l)
	b.parts = append(b.parts, p)
	return p
}

func (b *builder) joint(name string, side Side, centre, axis r3.Vec) {
	b.joints = append(b.joints, Joint{Name: name, Side: side, Centre: centre, Axis: axis})
}

// NewForm builds the body of a person from sizes, with what is worn and how the
// trunk stands. Breadth, depth and girth are exact at their stations where one
// convex section can have all three; a finding says where one gave way. The
// error names the sizes that are not known.
func NewForm(m *Measurements, worn []Layer, posture Posture) (*Form, []report.Finding, error) {
	s := &sizes{m: m}
	if s.readAll(); s.err() != nil {
		return nil, nil, s.err()
	}
	b := &builder{sizes: s}
	var findings, more []report.Finding
	b.face, findings = newFace(s)
	b.trunk, more = newTrunk(s, posture)
	b.neckAndHead()
	b.add(Torso, Both, geom.Identity(), b.trunk.loft)
	for _, side := range []Side{Left, Right} {
		b.arm(side)
	}
	for _, side := range []Side{Left, Right} {
		b.leg(side)
	}
	f := &Form{m: m, layers: append([]Layer(nil), worn...), posture: posture, levels: b.trunk.levels, parts: b.parts, joints: b.joints}
	f.dress(s, b.face)
	return f, append(findings, more...), nil
}

// readAll asks for every size that the form needs, so that what is missing is
// known before anything is built on it.
func (s *sizes) readAll() {
	for _, n := range formNeeds {
		s.mm(n, Both)
	}
}

// formNeeds are the measurements that a form is made of.
var formNeeds = []Name{
	"stature", "weight", "head girth", "head length", "head breadth", "ear to crown", "eye to crown", "face length", "face breadth",
	"pupil distance", "ear stand-off", "ear length", "ear breadth", "neck girth", "neck base girth", "back neck height", "front neck height",
	"shoulder height", "armpit height", "chest height", "waist height", "hip height", "crotch height", "shoulder breadth", "bideltoid breadth",
	"chest girth", "chest breadth", "chest depth", "waist girth", "waist breadth", "waist depth", "hip girth", "hip breadth", "hip depth",
	"upper arm girth flexed", "upper arm length", "forearm girth flexed", "forearm length", "wrist girth", "hand length", "hand breadth",
	"thigh girth", "lower thigh girth", "calf girth", "ankle girth", "knee height", "ankle height", "foot length", "foot breadth",
}

// dress puts the layers on the parts and finds the eyes.
func (f *Form) dress(s *sizes, face *face) {
	pupil := face.pupil(s)
	for _, p := range f.parts {
		p.wear(f.layers, face, pupil)
		p.bound = newBound(p)
	}
	head, _ := f.Part(Head, Both)
	for i, side := range []float64{1, -1} {
		f.eyes[i] = head.Frame.Point(r3.Vec{X: side * pupil.X, Y: pupil.Y, Z: pupil.Z})
	}
}

// With is the form of the same person with other values, worn and standing the
// same; unknown names are left out.
func (f *Form) With(values map[Name]float64) (*Form, error) {
	out, _, err := NewForm(f.m.With(values), f.layers, f.posture)
	return out, err
}

// Posture is how the trunk stands, with the shoulders where they came to stand.
func (f *Form) Posture() Posture { return f.posture.settled(f.levels) }

// Measurements are the sizes that the form was built from.
func (f *Form) Measurements() *Measurements { return f.m }

// Parts are all segments, always in the same order.
func (f *Form) Parts() []*Part { return append([]*Part(nil), f.parts...) }

// Part is the part of one segment: Both for head, neck and torso, Left or Right
// for limbs.
func (f *Form) Part(seg Segment, side Side) (*Part, bool) {
	for _, p := range f.parts {
		if p.Segment == seg && p.Side == side {
			return p, true
		}
	}
	return nil, false
}

// Mesh is the whole skin with ears and nose in body axes, each part a closed
// solid between its ends, for drawing.
func (f *Form) Mesh() geom.Mesh {
	var m geom.Mesh
	for _, p := range f.parts {
		m.Append(p.Skin())
	}
	return m
}

// Skin is the part's share of the form's mesh.
func (p *Part) Skin() geom.Mesh {
	m := inBody(p.Frame, closed(p.tube(p.ends())))
	for _, d := range p.details {
		m.Append(inBody(p.Frame, d))
	}
	return m
}

// Eyes are the left and the right pupil in body axes.
func (f *Form) Eyes() [2]r3.Vec { return f.eyes }

// inBody maps a mesh of a part into body axes.
func inBody(frame geom.Frame, m geom.Mesh) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = frame.Point(v)
	}
	return out
}
