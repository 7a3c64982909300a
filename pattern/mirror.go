package pattern

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// reflect makes the two halves of a mirrored shell each other's exact image.
func (s *shell) reflect() {
	if n := len(s.rings); s.plan.ends {
		for i := range n / 2 {
			for a, arc := range s.rings[i].arcs {
				s.rings[n-1-i].arcs[a] = append([]r2.Vec(nil), arc...)
			}
		}
	}
	for i := range s.rings {
		s.mirrorArcs(s.rings[i].arcs)
	}
}

// mirrorArcs makes the two halves of a ring's arcs each other's exact image, if
// the shell is mirrored.
func (s *shell) mirrorArcs(arcs [][]r2.Vec) {
	if !s.plan.mirror || s.plan.span != nil {
		return
	}
	for a := range arcs {
		if m := s.mirrorArc(a); m >= 0 && s.keys[a].angle < math.Pi-sameAngle {
			arcs[m] = mirrored(arcs[a])
		}
	}
	for a, arc := range arcs {
		for end, k := range []int{a, (a + 1) % len(s.keys)} {
			if onMiddle(s.keys[k]) {
				arc[end*(len(arc)-1)].Y = 0
			}
		}
	}
}

func onMiddle(k key) bool {
	return k.edge == bothSides && (k.angle == 0 || math.Abs(k.angle-math.Pi) < sameAngle)
}

// mirrorArc is the arc that arc a is the mirror image of, -1 if there is none.
func (s *shell) mirrorArc(a int) int {
	from, to := turn(-s.keys[(a+1)%len(s.keys)].angle), turn(-s.keys[a].angle)
	for m := range s.arcs() {
		if math.Abs(s.keys[m].angle-from) < sameAngle && math.Abs(s.keys[(m+1)%len(s.keys)].angle-to) < sameAngle {
			return m
		}
	}
	return -1
}

func mirrored(pts []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = r2.Vec{X: p.X, Y: -p.Y}
	}
	return out
}
