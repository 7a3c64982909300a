package pattern

import (
	"fmt"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// stand is where a piece stands on the body: its axes, and what it must be kept
// clear of.
type stand struct {
	frame    geom.Frame         // bodyFromPiece; of a right limb the piece is the mirror image
	segment  body.Segment       // that the piece moves with; "" for none
	floats   string             // joint that it floats over, by half of its turn; "" for none
	levels   map[string]float64 // of named places along the axis, by identifier
	low      float64            // the lowest level that there is a body at
	free     bool               // it is kept clear of nothing
	out      bool               // its axis points out of a joint, across the body: every ring is drawn
	beside   bool               // the trunk counts as body beside the limb
	sided    bool               // it stands on one of two limbs
	mirrored bool               // the piece is built as its mirror image, so that +x is what the language says
	parts    []*body.Part       // that are measured for clearance
	passed   []*body.Part       // that it passes; measured too
	raised   float64            // how far it has moved up its axis to keep clear of those, mm
	around   geom.Mesh          // body and what is worn on it; piece axes, as it is built
	outward  []r3.Vec           // normals at its vertices
	under    geom.Mesh          // outer faces of the pieces that it lies over; the same
	room     float64            // the most that one of those asks for between its foam and the body, mm
	by       template.Frame     // what it stands by
}

// standsAt finds a frame's place on one side of a form. What lies over another
// piece finds it among those that are made.
func standsAt(f template.Frame, form *body.Form, side body.Side, made finished) (s *stand, err error) {
	switch f.Kind {
	case "free":
		s, err = onNothing(f, form, side)
	case "joint":
		s, err = onJoint(f, form, side)
	case "over":
		s, err = onPiece(f, form, side, made)
	default:
		s, err = onSegment(f.Segment, form, side)
	}
	if err == nil {
		err = s.pass(f, form, side)
	}
	if err == nil {
		s.by = f
	}
	return s, err
}

// onSegment stands on one part of the body. A head comes with its neck, which
// a helmet's rim goes round. A right limb is built as the mirror image of a left
// one, so that the language's outer side is always +x.
func onSegment(seg body.Segment, form *body.Form, side body.Side) (*stand, error) {
	if !limb(seg) {
		side = body.Both
	}
	part, ok := form.Part(seg, side)
	if !ok {
		return nil, fmt.Errorf("the template stands on %q, which the body form does not have", seg)
	}
	s := &stand{frame: part.Frame, segment: seg, sided: limb(seg), mirrored: side == body.Right, levels: map[string]float64{}, parts: []*body.Part{part}}
	s.low, _ = part.Range()
	for _, at := range part.Stations {
		s.levels[body.Name(at.Name).Ident()] = at.Level
	}
	if neck, ok := form.Part(body.Neck, body.Both); ok && seg == body.Head {
		s.parts = append(s.parts, neck)
	}
	s.gather()
	return s, nil
}

// gather makes what the piece goes round of the stand's parts. One part alone is taken as
// it is, for all pieces that stand on it: none may change it.
func (s *stand) gather() {
	if part := s.parts[0]; len(s.parts) == 1 && part.Frame == s.frame && !s.mirrored {
		s.around, s.outward = part.Worn(), part.WornNormals()
		return
	}
	for _, part := range s.parts {
		first := len(s.around.V)
		s.around.Append(part.Worn())
		if part.Frame == s.frame {
			continue
		}
		for i, v := range s.around.V[first:] {
			s.around.V[first+i] = s.frame.Local(part.Frame.Point(v))
		}
	}
	if s.mirrored {
		s.around = s.around.MirroredX()
	}
}

// paired tells whether the piece stands on one of two limbs.
func (s *stand) paired() bool { return s.sided }

// inBody maps a point of the piece, as it is built, into body axes.
func (b *builder) inBody(p r3.Vec) r3.Vec {
	if b.stand.mirrored {
		p.X = -p.X
	}
	return b.stand.frame.Point(p)
}
