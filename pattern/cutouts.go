package pattern

import (
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

// cutouts evaluates the openings.
func (b *builder) cutouts(s *shell) ([]cutout, error) {
	e := evaluator{env: b.env}
	var out []cutout
	for _, o := range b.template.Openings {
		if b.redrawn(o.Name) || !e.on(o.When) {
			continue
		}
		if o.Around.Set() {
			out = append(out, e.allRound(o, s)...)
			continue
		}
		for _, curve := range e.curves(o) {
			c := newCutout(o.Name, o.View, curve)
			out = append(out, c)
			if o.Mirror {
				out = append(out, c.reflected())
			}
		}
	}
	return out, e.err
}

// roundPoints (detail): a hole of 40 mm drawn with so many chords is within
// 0.03 mm of round.
const roundPoints = 72

func (e *evaluator) curves(o template.Opening) [][]r2.Vec {
	if o.Round == nil {
		var points []r2.Vec
		var corner []bool
		for _, p := range o.Points {
			points, corner = append(points, r2.Vec{X: e.num(p.X), Y: e.num(p.Y)}), append(corner, p.Corner)
		}
		if o.Smooth {
			points = geom.SmoothRing(points, corner, smoothStep)
		}
		return [][]r2.Vec{points}
	}
	r := o.Round
	count, rows := 1, 1
	if r.Count.Set() {
		count = int(math.Round(e.num(r.Count)))
	}
	if r.Rows.Set() {
		rows = int(math.Round(e.num(r.Rows)))
	}
	if e.err == nil && (min(count, rows) < 0 || max(count, rows) > mostHoles || count*rows > mostHoles) {
		of := r.Rows
		if r.Count.Set() {
			of = r.Count
		}
		e.err = wrong(of, "the opening %q has %d x %d holes; it can have from 0 to %d", o.Name, count, rows, mostHoles)
	}
	if e.err != nil {
		return nil
	}
	x, y, radius, dx, dy := e.num(r.X), e.num(r.Y), e.num(r.Radius), e.num(r.StepX), e.num(r.StepY)
	if e.err == nil && !(radius >= leastHole && radius <= farthest) {
		e.err = wrong(r.Radius, "a hole has a radius of %.4g mm; it can be from %g to %g mm", radius, leastHole, farthest)
		return nil
	}
	var out [][]r2.Vec
	for i := range count {
		for j := range rows {
			out = append(out, circle(r2.Vec{X: x + float64(i)*dx, Y: y + float64(j)*dy}, radius))
		}
	}
	return out
}

// mostHoles is how many holes one opening of a template may stand for.
const mostHoles = 400

// leastHole is the radius of the smallest hole that a punch makes, mm (common
// practice, no source).
const leastHole = 0.5

func circle(c r2.Vec, radius float64) []r2.Vec {
	out := make([]r2.Vec, roundPoints)
	for i := range out {
		out[i] = r2.Add(c, r2.Scale(radius, direction(2*math.Pi*float64(i)/roundPoints)))
	}
	return out
}
