package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

// figure is a ring that is drawn instead of taken from the body: its inner
// face until the plan is moved out, then its neutral line.
type figure struct {
	line   []r2.Vec // closed, counter-clockwise
	points bool     // its vertices are the ring's corners; else it is smooth
	inner  []r2.Vec // the inner face, as it was drawn
	pushed float64  // how far the body has moved it out at most
}

// figurePoints (detail): a drawn ellipse of 300 mm with so many chords is
// within 0.01 mm of round.
const figurePoints = 360

// leastFigure and mostFigure bound a drawn ring's measures, mm (common
// practice, no source): foam cannot go round less, and more is a slip.
const (
	leastFigure = 2.0
	mostFigure  = 2000.0
)

// figure evaluates a ring's drawn size or points; nil if it takes the body's.
func (e *evaluator) figure(r template.Ring) *figure {
	switch {
	case len(r.Points) > 0:
		return e.polygon(r)
	case r.Size != nil:
		return e.superellipse(r)
	}
	return nil
}

// superellipse is |2x/Width|^n + |2z/Depth|^n = 1.
func (e *evaluator) superellipse(r template.Ring) *figure {
	s := r.Size
	w, d, x, z, n := e.num(s.Width), e.num(s.Depth), e.num(s.X), e.num(s.Z), 2.0
	if s.Full.Set() {
		n = e.num(s.Full)
	}
	if e.err != nil {
		return nil
	}
	for _, v := range []struct {
		what string
		is   float64
		of   template.Formula
	}{{"wide", w, s.Width}, {"deep", d, s.Depth}} {
		if !(v.is >= leastFigure && v.is <= mostFigure) {
			e.err = wrong(v.of, "ring %q would be %.4g mm %s; a drawn ring can be from %g to %g mm", r.Name, v.is, v.what, leastFigure, mostFigure)
			return nil
		}
	}
	if !(n >= 1 && n <= 8) {
		e.err = wrong(s.Full, "ring %q has full: %.4g; it can be from 1 (a lozenge) over 2 (an ellipse) to 8 (nearly a box)", r.Name, n)
		return nil
	}
	line := make([]r2.Vec, figurePoints)
	bent := func(v float64) float64 { return math.Copysign(math.Pow(math.Abs(v), 2/n), v) }
	for i := range line {
		c := direction(2 * math.Pi * float64(i) / figurePoints)
		line[i] = r2.Vec{X: z + d/2*bent(c.X), Y: x + w/2*bent(c.Y)}
	}
	return &figure{line: line, inner: line}
}

// polygon is a ring drawn point by point.
func (e *evaluator) polygon(r template.Ring) *figure {
	line := make([]r2.Vec, len(r.Points))
	for i, p := range r.Points {
		line[i] = r2.Vec{X: e.num(p.Y), Y: e.num(p.X)}
	}
	if e.err != nil {
		return nil
	}
	for i, p := range line {
		j := (i + 1) % len(line)
		if r2.Norm(p) > mostFigure {
			e.err = wrong(r.Points[i].X, "point %d of ring %q stands %.0f mm from the axis; %.0f mm is the most", i+1, r.Name, r2.Norm(p), mostFigure)
			return nil
		}
		if geom.Dist(p, line[j]) < geom.Detail {
			e.err = wrong(r.Points[j].X, "points %d and %d of ring %q are one place, with this body and these settings; keep them apart or leave one out", i+1, j+1, r.Name)
			return nil
		}
	}
	if i, j, bad := geom.Crossing(line); bad {
		e.err = wrong(r.Points[i].X, "the outline of ring %q crosses itself between points %d and %d, with this body and these settings; list its points in turn, once round", r.Name, i+1, j+1)
	} else if geom.Area(line) < 0 {
		e.err = wrong(r.Points[0].X, "the points of ring %q run the wrong way round; list them by growing angles, from forward to the wearer's left (on limbs, outwards)", r.Name)
	}
	return &figure{line: line, inner: line, points: true}
}

// cornersOfPoints gives rings drawn by points the angles that their corners go
// by: those listed, or those in which the first such ring's points are seen
// from its middle. All have equally many points, and begin at the same one.
func (p *plan) cornersOfPoints() error {
	var first *ringPlan
	for i := range p.rings {
		r := &p.rings[i]
		if r.drawn == nil || !r.drawn.points {
			continue
		}
		if first == nil {
			first = r
			if err := r.seenFromMiddle(); err != nil {
				return err
			}
		}
		if len(r.drawn.line) != len(first.drawn.line) {
			return fmt.Errorf("ring %q has %d points and ring %q has %d; all rings drawn by points have equally many, so that each corner runs on into the next ring", r.name, len(r.drawn.line), first.name, len(first.drawn.line))
		}
		r.corners = first.corners
	}
	if first == nil {
		return nil
	}
	start := 0
	for i, a := range first.corners {
		if turn(a) < turn(first.corners[start]) {
			start = i
		}
	}
	first.corners = sortedTurns(first.corners)
	for i := range p.rings {
		if r := &p.rings[i]; r.drawn != nil && r.drawn.points {
			line := append(append([]r2.Vec(nil), r.drawn.line[start:]...), r.drawn.line[:start]...)
			r.corners, r.drawn = first.corners, &figure{line: line, inner: line, points: true}
		}
	}
	return nil
}

// seenFromMiddle names a ring's points by angles, if the template does not.
func (r *ringPlan) seenFromMiddle() error {
	line := r.drawn.line
	if len(r.corners) > 0 {
		if len(r.corners) != len(line) {
			return fmt.Errorf("ring %q has %d points and %d corners; list one angle for each point, or leave corners out", r.name, len(line), len(r.corners))
		}
	} else {
		c := geom.Centroid(line)
		for _, q := range line {
			r.corners = append(r.corners, math.Atan2(q.Y-c.Y, q.X-c.X))
		}
	}
	total := 0.0
	for i, a := range r.corners {
		step := turn(r.corners[(i+1)%len(line)] - a)
		if total += step; step < sameAngle {
			total = math.Inf(1)
		}
	}
	if math.Abs(total-2*math.Pi) > sameAngle*float64(len(line)) {
		return fmt.Errorf("the points of ring %q do not stand at growing angles; give it corners: one angle for each point, growing, by which seams and folds shall know it", r.name)
	}
	return nil
}

// moveOut moves all drawn rings from their inner face to the neutral line.
func (p *plan) moveOut(d float64) {
	for i := range p.rings {
		if f := p.rings[i].drawn; f != nil {
			p.rings[i].drawn = &figure{line: geom.OffsetRing(f.inner, d), inner: f.inner, points: f.points}
		}
	}
}

// beyond is the figure pushed out wherever a convex ring of the limit stands out
// of it: a smooth one goes round both, and of a polygon each side moves out by
// what it needs.
func (f *figure) beyond(limit []r2.Vec) (*figure, error) {
	if len(limit) < 3 {
		return f, nil
	}
	out := &figure{inner: f.inner, points: f.points}
	for _, q := range limit {
		out.pushed = fartherOut(f.line, q, out.pushed)
	}
	switch {
	case out.pushed == 0:
		return f, nil
	case out.pushed > farthest:
		return nil, fmt.Errorf("it is drawn %.0f mm inside the body with its ease; draw it larger, or at another level", out.pushed)
	case !f.points:
		out.line = hull(append(append([]r2.Vec(nil), f.line...), limit...))
		return out, nil
	case f.hollow():
		return nil, fmt.Errorf("it is drawn hollow, and comes %.0f mm inside the body with its ease; draw it wider there", out.pushed)
	}
	n := len(f.line)
	normals, reach := make([]r2.Vec, n), make([]float64, n)
	for i, p := range f.line {
		normals[i] = outward(p, f.line[(i+1)%n])
		reach[i] = max(r2.Dot(normals[i], p), geom.Support(limit, normals[i]))
	}
	for i, p := range f.line {
		j := (i + n - 1) % n
		q, ok := meet(normals[j], reach[j], normals[i], reach[i])
		if !ok { // in the middle of a straight side
			q = r2.Add(p, r2.Scale(reach[i]-r2.Dot(normals[i], p), normals[i]))
		}
		out.line = append(out.line, q)
	}
	return out, nil
}

// hollow tells whether a figure is not convex.
func (f *figure) hollow() bool {
	n := len(f.line)
	for i, p := range f.line {
		q, r := f.line[(i+1)%n], f.line[(i+2)%n]
		if f.points && r2.Cross(r2.Sub(q, p), r2.Sub(r, q)) < -geom.Coincident {
			return true
		}
	}
	return false
}

func (r ringPlan) hollow() bool { return r.drawn != nil && r.drawn.hollow() }

// placesOf are the places of keys on a ring drawn by points: its corners, and
// for an angle between two corners the place at that share of the way.
func (s *shell) placesOf(r ringPlan) []r2.Vec {
	line, out := r.drawn.line, make([]r2.Vec, len(s.keys))
	for i, k := range s.keys {
		n := len(line) - 1 // the side that the angle lies on
		for j, a := range r.corners {
			if a <= k.angle+sameAngle {
				n = j
			}
		}
		a, b := r.corners[n], r.corners[(n+1)%len(line)]
		t := turn(k.angle-a) / turn(b-a)
		out[i] = geom.Lerp(line[n], line[(n+1)%len(line)], t)
	}
	return out
}
