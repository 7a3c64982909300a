package pattern

import (
	"math"

	"tasset/body"
)

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

// Reserve is how much farther than was asked the piece stands off the estimated body,
// because a real one may lie that much outside it, mm.
func (p *Piece) Reserve() float64 {
	if p.stood == nil || p.Free {
		return 0
	}
	return p.stood.reserve()
}

// reserve is the least that the parts which the piece goes round are given: bodies
// differ least where two of them meet.
func (s *stand) reserve() float64 {
	if s.free || len(s.parts) == 0 {
		return 0
	}
	least := math.Inf(1)
	for _, part := range s.parts {
		least = min(least, body.Reserve(part.Segment))
	}
	return least
}
