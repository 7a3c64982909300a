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

// allRound cuts an opening evenly round an upright shell, each seen square on and
// with its x laid along the ring.
func (e *evaluator) allRound(o template.Opening, s *shell) []cutout {
	n := e.whole(o.Around, fmt.Sprintf("openings %q round the piece", o.Name), mostHoles)
	start := e.num(o.Start)
	if e.err != nil {
		return nil
	}
	env := maps.Clone(e.env)
	turned := evaluator{env: env}
	rim := s.longest()
	spacing := rim.length / float64(n)
	env[template.Spacing] = spacing
	var out []cutout
	for i := range n {
		at := rim.from + (float64(i)+start)*spacing
		p, square := rim.at(at), rim.outward(at)
		env[template.Turn] = math.Atan2(p.Y, p.X)
		for _, curve := range turned.curves(o) {
			for i, q := range curve {
				curve[i].X = r2.Cross(square, rim.at(at+q.X))
			}
			view := eye{right: shellVec(r2.Vec{X: -square.Y, Y: square.X}, 0), up: r3.Vec{Y: 1}, toward: shellVec(square, 0)}
			out = append(out, seenFrom(view, o.Name, curve))
		}
	}
	e.err = turned.err
	return out
}

// ringLine is a ring by its arc length.
type ringLine struct {
	pts    []r2.Vec // a closed one ends where it begins
	length float64
	from   float64 // where angle 0 is, or of an open one its first edge
	closed bool
}

// longest is the longest ring of a shell.
func (s *shell) longest() ringLine {
	out := ringLine{closed: !s.open()}
	for _, r := range s.rings {
		line := s.line(r)
		if out.closed {
			line = append(line, line[0])
		}
		if l := geom.Length(line); l > out.length {
			out.pts, out.length = line, l
		}
	}
	if out.closed {
		ring := out.pts[:len(out.pts)-1]
		first, _ := rayMeets(ring, geom.Centroid(ring), 0, 0)
		out.from = position(ring, first)
	}
	return out
}

// at is the place at an arc length; past the ends of an open ring it goes
// straight on.
func (r *ringLine) at(s float64) r2.Vec {
	if r.closed {
		s = math.Mod(math.Mod(s, r.length)+r.length, r.length)
	}
	inside := min(max(s, 0), r.length)
	p := geom.At(r.pts, inside)
	if s == inside {
		return p
	}
	out := r.outward(inside)
	return r2.Add(p, r2.Scale(s-inside, r2.Vec{X: -out.Y, Y: out.X}))
}

// outward is the normal of a short stretch about a place, so that a corner looks
// half way between its sides.
func (r *ringLine) outward(s float64) r2.Vec {
	const near = 0.5 // mm
	if r.closed {
		return outward(r.at(s-near), r.at(s+near))
	}
	return outward(geom.At(r.pts, max(s-near, 0)), geom.At(r.pts, min(s+near, r.length)))
}
