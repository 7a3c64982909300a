package pattern

import (
	"fmt"
	"maps"
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// allRound cuts an opening evenly round an upright shell, each seen square on.
func (e *evaluator) allRound(o template.Opening, s *shell) []cutout {
	n := e.whole(o.Around, fmt.Sprintf("openings %q round the piece", o.Name), mostHoles)
	start := e.num(o.Start)
	if e.err != nil {
		return nil
	}
	env := maps.Clone(e.env)
	turned := evaluator{env: env}
	places, spacing := s.evenly(n, start)
	env[template.Spacing] = spacing
	var out []cutout
	for _, at := range places {
		env[template.Turn] = math.Atan2(at.p.Y, at.p.X)
		view, middle := at.eye(), at.view().Y
		for _, curve := range turned.curves(o) {
			for i := range curve {
				curve[i].X += middle
			}
			out = append(out, seenFrom(view, o.Name, curve))
		}
	}
	e.err = turned.err
	return out
}

// ringPlace is a place on a ring and the outward normal there.
type ringPlace struct{ p, out r2.Vec }

// evenly divides the longest ring of a shell: from angle 0 on if it is closed,
// else from its first edge. The first place stands at a share start of the
// spacing.
func (s *shell) evenly(n int, start float64) (places []ringPlace, spacing float64) {
	var longest []r2.Vec
	most := 0.0
	for _, r := range s.rings {
		line := s.line(r)
		if !s.open() {
			line = append(line, line[0])
		}
		if l := geom.Length(line); l > most {
			longest, most = line, l
		}
	}
	from := 0.0
	if !s.open() {
		ring := longest[:len(longest)-1]
		first, _ := rayMeets(ring, geom.Centroid(ring), 0, 0)
		from = position(ring, first)
	}
	spacing = most / float64(n)
	for i := range n {
		at := math.Mod(from+(float64(i)+start)*spacing+most, most)
		places = append(places, placeOn(longest, at, !s.open()))
	}
	return places, spacing
}

// placeOn is the place at an arc length of a line; its normal is that of a short
// stretch about it, so that a corner looks half way between its sides.
func placeOn(line []r2.Vec, at float64, closed bool) ringPlace {
	const near = 0.5 // mm
	total := geom.Length(line)
	reach := func(s float64) r2.Vec {
		if closed {
			s = math.Mod(s+total, total)
		}
		return geom.At(line, s)
	}
	return ringPlace{reach(at), outward(reach(at-near), reach(at+near))}
}

// view is the place in the picture of its own eye: Y along the ring.
func (p ringPlace) view() r2.Vec {
	return r2.Vec{X: r2.Dot(p.p, p.out), Y: r2.Cross(p.out, p.p)}
}

// eye looks at the place square on, from far away.
func (p ringPlace) eye() eye {
	along := r2.Vec{X: -p.out.Y, Y: p.out.X}
	return eye{right: shellVec(along, 0), up: r3.Vec{Y: 1}, toward: shellVec(p.out, 0)}
}
