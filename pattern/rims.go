package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r3"
)

// rimStepAngle (detail): the places at which a rim's curve is put on the piece.
const rimStepAngle = 2 * math.Pi / 180

// rims are what lies beyond the curves along which the template cuts off the
// ends of the piece, but for the ends that the maker has drawn: the lower one by
// true.
func (b *builder) rims(shape *shape, panels []rawPanel, drawn map[bool]string) ([]cutout, error) {
	e := evaluator{env: b.env}
	var out []cutout
	var w *walls
	for _, r := range b.template.Rims {
		if _, mine := drawn[r.Side == "lower"]; mine || !e.on(r.When) {
			continue
		}
		if w == nil {
			w = newWalls(panels)
		}
		level, err := e.rimCurve(r)
		if err != nil {
			return nil, err
		}
		path := &rimPath{walls: w, eye: eye{kind: within, at: shape.shells[0].within(mean(level))}}
		path.round(level, r.Side == "lower")
		c := path.cutout(r.Name, r.Side == "lower")
		c.bandsOnly = shape.bands() != nil
		out = append(out, *c)
	}
	return out, e.err
}

// rimCurve is the level of a rim by the angle, which runs on from the last point
// to the first.
func (e *evaluator) rimCurve(r template.Rim) (func(angle float64) float64, error) {
	var angles, levels []float64
	for _, p := range r.Points {
		angles, levels = append(angles, e.num(p.Angle)), append(levels, e.num(p.Level))
	}
	if r.Mirror {
		angles, levels = withImages(angles, levels)
	}
	n := len(angles)
	for i := range angles {
		next := angles[(i+1)%n]
		if i == n-1 {
			next += 2 * math.Pi
		}
		if e.err == nil && next-angles[i] < sameAngle {
			return nil, wrong(r.Points[0].Angle, "rim %q goes from %.1f° to %.1f°; its angles must grow from point to point, through less than a whole turn", r.Name, units.Deg(angles[i]), units.Deg(next))
		}
	}
	if e.err != nil {
		return nil, e.err
	}
	// A turn before and a turn behind, so that the curve closes smoothly.
	var x, y []float64
	for turn := -1; turn <= 1; turn++ {
		for i := range angles {
			x, y = append(x, angles[i]+2*math.Pi*float64(turn)), append(y, levels[i])
		}
	}
	var curve interp.FittablePredictor = &interp.PiecewiseLinear{}
	if r.Smooth {
		curve = &interp.FritschButland{} // does not swing past its points
	}
	if err := curve.Fit(x, y); err != nil {
		return nil, fmt.Errorf("rim %q: %w", r.Name, err)
	}
	return func(a float64) float64 { return curve.Predict(angles[0] + turn(a-angles[0])) }, nil
}

// withImages adds the mirror images of places from 0 to 180 degrees.
func withImages(angles, levels []float64) (a, l []float64) {
	for i := len(angles) - 1; i >= 0; i-- {
		if angles[i] > sameAngle && angles[i] < math.Pi-sameAngle {
			a, l = append(a, -angles[i]), append(l, levels[i])
		}
	}
	return append(a, angles...), append(l, levels...)
}

// mean is the mean level of a rim's curve: seen from there, even a wide flare is
// not seen along its slope.
func mean(level func(angle float64) float64) float64 {
	sum, n := 0.0, 0.0
	for a := -math.Pi; a < math.Pi; a += rimStepAngle {
		sum, n = sum+level(a), n+1
	}
	return sum / n
}

// within is a place in the middle of the shell at a level.
func (s *shell) within(level float64) r3.Vec {
	ring := s.line(s.rings[len(s.rings)/2])
	if s.limit != nil {
		if at := s.limit.at(level); len(at) >= 3 {
			ring = at
		}
	}
	return shellVec(geom.Centroid(ring), level)
}

// pastRim is how far beyond the piece's own rim a curve is taken, mm, where it
// runs along it: there is nothing to cut there.
const pastRim = 1.0

// beyond takes a level that is no different from the rim's past it.
func beyond(level, low, high float64, lower bool) float64 {
	switch {
	case lower && level < low+geom.Detail:
		return min(level, low-pastRim)
	case !lower && level > high-geom.Detail:
		return max(level, high+pastRim)
	}
	return level
}

// round puts a curve on the piece all the way round. Where there is no piece, it
// stands as far out as at the nearest place where there is: a jump there would
// show beside it.
func (r *rimPath) round(level func(angle float64) float64, lower bool) {
	low, high := r.walls.bounds()
	const inside = 0.01 // mm from the rim, where a ray meets the piece for certain
	n := int(math.Round(2 * math.Pi / rimStepAngle))
	met := make([]bool, n)
	for i := range n {
		b := bearing{angle: -math.Pi + float64(i)*rimStepAngle}
		b.level = beyond(level(b.angle), low.Y, high.Y, lower)
		b.out, met[i] = r.walls.out(r.eye, b.angle, min(max(b.level, low.Y+inside), high.Y-inside))
		r.at = append(r.at, b)
	}
	known := slices.Clone(r.at)
	for i := range n {
		for d := 0; !met[i] && d <= n/2; d++ {
			if j := (i + d) % n; met[j] {
				r.at[i].out = known[j].out
				break
			}
			if j := (i - d + n) % n; met[j] {
				r.at[i].out = known[j].out
				break
			}
		}
	}
}
