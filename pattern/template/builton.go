package template

import "tasset/body"

// BuiltOn names the templates whose pieces must be made before one of this
// template, in any of its layouts: those that it lies over, and those that its
// flat parts follow.
func (t *Template) BuiltOn() []string {
	var out []string
	add := func(name string) {
		if name != "" {
			out = append(out, name)
		}
	}
	add(t.Frame.Over)
	for _, l := range t.layouts {
		add(l.shape.Frame.Over)
	}
	for _, f := range t.Flats {
		if f.Follow != nil {
			add(f.Follow.Piece)
		}
	}
	return out
}

// Paired tells whether a piece on the frame comes on two sides. Over another
// piece that is not known from the frame, but from that piece.
func (f Frame) Paired() bool {
	if f.Kind == "joint" {
		return f.Joint != "neck"
	}
	return f.Pair || f.Segment != "" && limb(f.Segment)
}

// JointParts are the parts of the body that meet at the frame's joint; nil on
// other frames.
func (f Frame) JointParts() []body.Segment { return jointParts[f.Joint] }
