package pattern

import "tasset/body"

// Scatter is how far real skins lie from the estimated body where the piece sits,
// the most of the parts that it is kept clear of; 0 where that was not measured.
func (p *Piece) Scatter() body.Scatter {
	var out body.Scatter
	if p.stood == nil || p.Free {
		return out
	}
	for _, part := range p.stood.parts {
		s, ok := body.ScatterOf(part.Segment)
		if !ok {
			return body.Scatter{}
		}
		out = body.Scatter{Mean: max(out.Mean, s.Mean), Tail: max(out.Tail, s.Tail)}
	}
	return out
}
