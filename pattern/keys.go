package pattern

import (
	"fmt"
	"math"
	"sort"
)

// key is an angle at which something happens on every ring: a seam, a corner,
// a crease, an edge of the gap or of the span. All rings are divided at the
// same keys, so that what meets at a ring shares its points.
type key struct {
	angle  float64
	corner int // index of the corner, -1 if none
	crease int
	edge   edgeSide
	split  bool // the middle of a mirrored piece: divided there, neither seam nor fold
}

// edgeSide tells on which side of a key the shell goes on.
type edgeSide int

const (
	bothSides edgeSide = iota
	endsHere           // the shell ends at this key
	startsHere
)

// sameAngle (rounding): angles nearer than this are one key.
const sameAngle = 1e-6

// turn brings an angle into [0, 2π), with a hair below 2π counted as 0.
func turn(a float64) float64 {
	if a = math.Mod(a, 2*math.Pi); a < 0 {
		a += 2 * math.Pi
	}
	if a > 2*math.Pi-sameAngle {
		return 0
	}
	return a
}

func (s *shell) placeKeys() error {
	s.addCorners()
	for _, r := range s.plan.rings {
		for i, c := range r.ridges {
			s.add(key{angle: c.angle, corner: -1, crease: i})
		}
	}
	for _, b := range s.plan.bands {
		for _, a := range b.seams {
			s.add(key{angle: a, corner: -1, crease: -1})
		}
	}
	if s.plan.mirror && s.plan.span == nil {
		for _, a := range []float64{0, math.Pi} {
			s.add(key{angle: a, corner: -1, crease: -1, split: true})
		}
	}
	for _, b := range s.plan.bands {
		if b.crest != nil { // where the ring turns from one side of the crest to the other
			s.add(key{angle: b.crest.along, corner: -1, crease: -1, split: true})
			s.add(key{angle: b.crest.along + math.Pi, corner: -1, crease: -1, split: true})
		}
	}
	s.addEdges()
	sort.SliceStable(s.keys, func(i, j int) bool { return s.keys[i].angle < s.keys[j].angle })
	return s.orderFromSpan()
}

func (s *shell) addCorners() {
	for i, a := range s.plan.cornerAngles() {
		s.add(key{angle: a, corner: i, crease: -1})
	}
}

// add puts in a key unless one stands at its angle already.
func (s *shell) add(k key) {
	k.angle = turn(k.angle)
	for i := range s.keys {
		if math.Abs(s.keys[i].angle-k.angle) < sameAngle {
			s.keys[i].crease = max(s.keys[i].crease, k.crease)
			return
		}
	}
	s.keys = append(s.keys, k)
}

// addEdges puts in the edges of the gap and of the span.
func (s *shell) addEdges() {
	if g := s.plan.gap; g != nil && g.width > 0 {
		s.remove(g.at)
		a := turn(g.at)
		s.keys = append(s.keys, key{angle: a, corner: -1, crease: -1, edge: endsHere}, key{angle: a, corner: -1, crease: -1, edge: startsHere})
	} else if g != nil {
		s.add(key{angle: g.at, corner: -1, crease: -1})
	}
	if sp := s.plan.span; sp != nil {
		s.remove(sp[0])
		s.remove(sp[1])
		s.keys = append(s.keys,
			key{angle: turn(sp[0]), corner: -1, crease: -1, edge: startsHere},
			key{angle: turn(sp[1]), corner: -1, crease: -1, edge: endsHere})
	}
}

func (s *shell) remove(angle float64) {
	angle = turn(angle)
	for i := range s.keys {
		if math.Abs(s.keys[i].angle-angle) < sameAngle {
			s.keys = append(s.keys[:i], s.keys[i+1:]...)
			return
		}
	}
}

// orderFromSpan turns the list so that an open shell starts at its first key
// and ends at its last, and drops keys in the open part.
func (s *shell) orderFromSpan() error {
	for i, k := range s.keys {
		if k.edge != startsHere {
			continue
		}
		s.keys = append(append([]key(nil), s.keys[i:]...), s.keys[:i]...)
		for j, k := range s.keys {
			if k.edge == endsHere {
				s.keys = s.keys[:j+1]
				break
			}
		}
		break
	}
	if len(s.keys) == 0 || s.open() && len(s.keys) < 2 {
		return fmt.Errorf("the piece has no seam, corner or crease to divide it; give its band at least one seam")
	}
	return nil
}

// open tells whether the shell has two long edges instead of closing on itself.
func (s *shell) open() bool { return s.keys[0].edge == startsHere }

// arcs is the number of stretches between keys.
func (s *shell) arcs() int {
	if s.open() {
		return len(s.keys) - 1
	}
	return len(s.keys)
}

func (s *shell) seamsAt(b bandPlan) []bool {
	at := make([]bool, len(s.keys))
	mark := func(angle float64) {
		for i, k := range s.keys {
			if math.Abs(k.angle-turn(angle)) < sameAngle {
				at[i] = true
			}
		}
	}
	for _, a := range b.seams {
		mark(a)
	}
	if g := s.plan.gap; g != nil {
		mark(g.at)
	}
	return at
}
