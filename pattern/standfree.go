package pattern

import (
	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern/template"
)

// onNothing stands free, on the axes of the part that holds the piece, or of
// the world. There is no body that it is kept clear of.
func onNothing(f template.Frame, form *body.Form, side body.Side) (*stand, error) {
	s := &stand{frame: geom.Identity(), levels: map[string]float64{}}
	if f.Segment != "" {
		held, err := onSegment(f.Segment, form, side)
		if err != nil {
			return nil, err
		}
		s.frame, s.segment, s.levels, s.sided, s.mirrored = held.frame, held.segment, held.levels, held.sided, held.mirrored
	}
	if f.Pair {
		s.sided, s.mirrored = true, side == body.Right
	}
	s.free = true
	return s, nil
}
