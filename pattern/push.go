package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// levelsPerBand is how many levels of a band are held against its limit
// (detail: between two of them a forearm or shin bulges by less than 0.1 mm
// more than at them; the finished piece is measured against the body as well).
const levelsPerBand = 24

// pushRounds caps how often rings are moved out; two rounds settle it, since a
// ring's move changes the next band only by its own amount.
const pushRounds = 6

// pushOut moves the rings of bands that wrap the axis out by the least amounts
// that let straight foam between two rings clear what bulges between them.
func (s *shell) pushOut() {
	moved := make([]float64, len(s.rings))
	for range pushRounds {
		worst := 0.0
		for _, b := range s.bands {
			if b.along || b.formed || b.pointed || b.crest != nil || s.plan.rings[b.from].hollow() || s.plan.rings[b.to].hollow() {
				continue
			}
			atFrom, atTo := leastLine(s.needs(b))
			for i, d := range map[int]float64{b.from: atFrom, b.to: atTo} {
				if d > 0 {
					s.moveOut(i, d)
					moved[i] += d
					worst = max(worst, d)
				}
			}
		}
		if worst < 1e-3 { // detail: a thousandth of a millimetre is nothing to foam
			break
		}
	}
	for _, d := range moved {
		s.pushed = max(s.pushed, d)
	}
}

func (s *shell) moveOut(i int, d float64) {
	r := &s.rings[i]
	offset := geom.OffsetRing
	if s.open() {
		offset = geom.OffsetLine
	}
	s.setLine(r, offset(s.line(*r), d))
	s.reflect()
}

// need is how far, at a share t of the way up a band, straight foam runs
// inside its limit.
type need struct{ t, inside float64 }

func (s *shell) needs(b band) []need {
	lower, upper := s.line(s.rings[b.from]), s.line(s.rings[b.to])
	l0, l1 := s.rings[b.from].level, s.rings[b.to].level
	var out []need
	for i := range levelsPerBand + 1 {
		t := float64(i) / levelsPerBand
		limit := s.limit.at(l0 + t*(l1-l0))
		if len(limit) < 3 {
			continue
		}
		blend := make([]r2.Vec, len(lower))
		for j := range blend {
			blend[j] = geom.Lerp(lower[j], upper[j], t)
		}
		out = append(out, need{t, insideBy(blend, limit, !s.open())})
	}
	return out
}

// insideBy is how far a convex limit (counter-clockwise) stands out of a line's sides at
// most; negative where the line clears it everywhere.
func insideBy(line, limit []r2.Vec, closed bool) float64 {
	worst := math.Inf(-1)
	n := len(line)
	if !closed {
		n--
	}
	far := 0 // the point of the limit that reaches farthest out of the last side
	for i := range n {
		out := outward(line[i], line[(i+1)%len(line)])
		if out == (r2.Vec{}) {
			continue
		}
		far = farthestFrom(far, limit, out)
		worst = max(worst, r2.Dot(limit[far], out)-r2.Dot(out, line[i]))
	}
	return worst
}

// farthestFrom is the point of a convex ring that reaches farthest in a direction. It is
// looked for on both ways round from a guess.
func farthestFrom(guess int, ring []r2.Vec, dir r2.Vec) int {
	at, reach := guess, r2.Dot(ring[guess], dir)
	for _, step := range []int{1, len(ring) - 1} {
		for range ring {
			next := (at + step) % len(ring)
			r := r2.Dot(ring[next], dir)
			if r < reach {
				break
			}
			at, reach = next, r
		}
		if at != guess {
			break
		}
	}
	return at
}

// leastLine gives the values at t = 0 and t = 1 of the straight line that lies
// on or above every need and above nothing, and is least in the middle. Rounding
// must not choose: of lines that are equal to it the first is taken, and one may
// dip below nothing by as much, as it does where a need was met before.
func leastLine(needs []need) (at0, at1 float64) {
	pts := []r2.Vec{{X: 0}, {X: 1}}
	for _, n := range needs {
		pts = append(pts, r2.Vec{X: n.t, Y: max(n.inside, 0)})
	}
	upper := geom.Hull(append(pts, r2.Vec{X: 0, Y: -1}, r2.Vec{X: 1, Y: -1}))
	best := math.Inf(1)
	for i, a := range upper {
		b := upper[(i+1)%len(upper)]
		if a.X <= b.X { // the lower side of the hull, or an end of it
			continue
		}
		slope := (a.Y - b.Y) / (a.X - b.X)
		y0 := b.Y - slope*b.X
		y1 := y0 + slope
		if mid := (y0 + y1) / 2; min(y0, y1) >= -geom.Coincident && mid < best-geom.Coincident {
			best, at0, at1 = mid, max(y0, 0), max(y1, 0)
		}
	}
	if math.IsInf(best, 1) { // a line that would dip below nothing at one end
		for _, p := range pts {
			at0, at1 = max(at0, p.Y), max(at1, p.Y)
		}
	}
	return at0, at1
}

// risers is how many levels a band of gores is followed at.
const risers = 48

// drawRails follows a band that bends along the axis: at each level a polygon
// whose sides just touch the limit, its corners forming the seams. All
// polygons face the same ways, so each panel bends about parallel lines.
func (s *shell) drawRails(i int) error {
	b := &s.bands[i]
	if s.drawnBand(*b) {
		s.drawnRails(b)
		return nil
	}
	levels := s.railLevels(*b)
	facing := facings(sortedTurns(b.seams))
	b.rails = make([][]r3.Vec, len(s.keys))
	for _, level := range levels {
		corners, err := facetRing(s.limit.at(level), facing)
		if err != nil {
			return err
		}
		s.addToRails(b, corners, level)
	}
	if b.pointed {
		s.closeRails(b)
	}
	return nil
}

func (s *shell) addToRails(b *band, corners []r2.Vec, level float64) {
	n := 0
	for k := range s.keys {
		if b.seamAt[k] {
			b.rails[k] = append(b.rails[k], shellVec(corners[n], level))
			n++
		}
	}
}

// railLevels run from a band's lower ring to its upper one. Below a point they
// crowd towards the top, where the profile turns level.
func (s *shell) railLevels(b band) []float64 {
	from, to := s.rings[b.from].level, s.rings[b.to].level
	if b.pointed {
		to = s.apexLevel()
	}
	var out []float64
	for i := range risers + 1 {
		t := float64(i) / risers
		if b.pointed {
			t = math.Sin(t * math.Pi / 2)
			if i == risers {
				break // the point itself is put on by closeRails
			}
		}
		out = append(out, from+t*(to-from))
	}
	return out
}

func (s *shell) apexLevel() float64 { return s.limit.high }

// closeRails ends all rails in one point, above the middle of the last polygon.
func (s *shell) closeRails(b *band) {
	var sum r3.Vec
	n := 0.0
	for _, r := range b.rails {
		if r != nil {
			sum = r3.Add(sum, r[len(r)-1])
			n++
		}
	}
	apex := r3.Scale(1/n, sum)
	apex.Y = s.apexLevel()
	if s.plan.mirror {
		apex.X = 0
	}
	for k, r := range b.rails {
		if r != nil {
			b.rails[k] = append(r, apex)
		}
	}
}
