package flatten

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Reason is why a panel cannot be laid flat.
type Reason int

// The reasons.
const (
	NotFlat  Reason = iota // the solver finds no flat panel with this border
	Folded                 // a part of it would have to be turned over
	Overlaps               // it would lie on itself
	Crinkled               // its border would be crumpled to keep its length
)

// Refusal says why a panel cannot be laid flat, and where that shows, in space.
type Refusal struct {
	Reason Reason
	At     r3.Vec
}

func (r *Refusal) Error() string {
	why := map[Reason]string{
		NotFlat:  "the panel cannot be flattened at true seam length: it curves too much",
		Folded:   "the panel cannot be flattened at true seam length: a part of it would have to be turned over",
		Overlaps: "the panel would lie on itself when flat",
		Crinkled: "the panel cannot be flattened at true seam length: its border would crumple",
	}[r.Reason]
	return fmt.Sprintf("%s (near %.0f, %.0f, %.0f mm); cut it by a dart or a seam", why, r.At.X, r.At.Y, r.At.Z)
}

const (
	// corner: a border vertex at which the shell turns by more than this ends
	// one side and begins the next.
	corner = 25 * math.Pi / 180
	// crumple is the largest step, between two neighbouring vertices of one
	// side, of how much further the border turns than the shell. Borders that
	// kept their shape had at most 7°, crinkled ones 11° and more, on saddles and
	// flares of 128 to 8,192 triangles.
	crumple = 9 * math.Pi / 180
)

// refuse tells what forbids the result, nil if nothing.
func (p *Patch) refuse(v []r3.Vec, f *Formed, st start, s *solver) error {
	if !s.settled || !f.Certified && !f.Braced {
		return &Refusal{NotFlat, v[f.SwellAt]}
	}
	for k, e := range f.Strain {
		if !(e.Short > 0) {
			return &Refusal{Folded, v[p.t[k][0]]}
		}
	}
	ring := make([]r2.Vec, len(p.border))
	for k, i := range p.border {
		ring[k] = f.Flat[i]
	}
	if i, _, bad := geom.Crossing(ring); bad {
		return &Refusal{Overlaps, v[p.border[i]]}
	}
	if k, jump := kink(ring, st.turn); len(s.loop) > 0 && jump > crumple {
		return &Refusal{Crinkled, v[p.border[k]]}
	}
	return nil
}

// kink is the largest step between neighbouring vertices of a flat border in how
// much further it turns than the shell does, and where.
func kink(ring []r2.Vec, shell []float64) (at int, jump float64) {
	n := len(ring)
	beyond := func(k int) float64 {
		in, out := r2.Sub(ring[k], ring[(k+n-1)%n]), r2.Sub(ring[(k+1)%n], ring[k])
		return math.Atan2(r2.Cross(in, out), r2.Dot(in, out)) - shell[k]
	}
	for k := range ring {
		next := (k + 1) % n
		if math.Abs(shell[k]) > corner || math.Abs(shell[next]) > corner {
			continue
		}
		if d := math.Abs(beyond(next) - beyond(k)); d > jump {
			at, jump = next, d
		}
	}
	return at, jump
}

// BorderLengths are the border edges' own lengths when the vertices are at v.
func (p *Patch) BorderLengths(v []r3.Vec) []float64 {
	out := make([]float64, len(p.border))
	for k, i := range p.border {
		out[k] = geom.Dist(v[i], v[p.border[(k+1)%len(p.border)]])
	}
	return out
}

func (p *Patch) checkLengths(lengths []float64) error {
	if len(lengths) != len(p.border) {
		return fmt.Errorf("the panel's border has %d edges and is given %d lengths", len(p.border), len(lengths))
	}
	sum, most := 0.0, 0
	for k, l := range lengths {
		if !(l > 0) || math.IsInf(l, 0) {
			return fmt.Errorf("edge %d of the panel's border is to be %g mm long; a length must be above 0", k, l)
		}
		sum += l
		if l > lengths[most] {
			most = k
		}
	}
	if l := lengths[most]; l >= sum-l {
		return fmt.Errorf("edge %d of the panel's border is to be %.1f mm long and all others together %.1f mm: such a border does not close", most, l, sum-l)
	}
	return nil
}
