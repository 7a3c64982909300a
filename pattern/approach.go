package pattern

import (
	"math"

	"tasset/body"

	"gonum.org/v1/gonum/spatial/r3"
)

// approach looks for how near places (body axes), one after the other and mostly beside
// each other, come to parts of the body and what is worn on them.
type approach struct {
	parts []*body.Part
	least float64 // what is looked for: how near the nearest comes
	last  known   // the place that was measured last
	ahead float64 // how much farther than the least is looked
}

// known is a place and how far it is at least from the body. A distance changes by no
// more than one goes, so that places beside it need not be measured if that is
// much.
type known struct {
	at   r3.Vec
	free float64
	set  bool
}

// beyond tells whether a place is surely no nearer to the body than so much.
func (k known) beyond(at r3.Vec, least float64) bool {
	return k.set && k.free-math.Sqrt(r3.Norm2(r3.Sub(at, k.at))) >= least
}

// mostAhead and leastAhead (detail): where foam leads away from the body, much is known of
// the next places once a place was looked for far out; where it runs along it, nothing
// is, and to look less far costs less. mm.
const (
	leastAhead = 0.5
	mostAhead  = 12.0
)

// passes tells whether a place is surely no nearer than the least.
func (a *approach) passes(at r3.Vec) bool { return a.last.beyond(at, a.least) }

// measure is how far a place is, at most a little more than the least.
func (a *approach) measure(at r3.Vec) float64 {
	a.ahead = max(a.ahead, leastAhead)
	far := a.least + a.ahead
	d := far
	outside := a.last.beyond(at, 0)
	for _, part := range a.parts {
		if outside {
			d = part.NearerOutside(at, d)
		} else {
			d = part.Nearer(at, d)
		}
	}
	if d < far {
		a.ahead /= 2
	} else {
		a.ahead = min(2*a.ahead, mostAhead)
	}
	a.last = known{at, d, true}
	return d
}
