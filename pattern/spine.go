package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r3"
)

// spine is a curved axis: a smooth curve, with the frame of a ring at each
// level, which is a length along it. Rings stand square to it and do not twist
// against each other, but for their tilt.
type spine struct {
	frames []geom.Frame // shellFromRing, before the tilt
	at     []float64    // arc length
	steps  []float64    // arc length of each step of the template
	tilts  []float64    // at the steps
}

// spineParts (detail): a curve between two steps is followed by so many chords;
// a quarter of a circle is then short by 3 parts in a million.
const spineParts = 200

// longestSpine is the most that a spine may measure, mm (common practice, no
// source: more is a slip).
const longestSpine = 3000.0

// spineOf evaluates the frame's spine, and gives formulas its steps as levels;
// nil if the axis is straight.
func (b *builder) spineOf(steps []template.Step) (*spine, error) {
	if len(steps) == 0 {
		return nil, nil
	}
	e := evaluator{env: b.env}
	var knots []r3.Vec
	sp := &spine{}
	for _, s := range steps {
		knots = append(knots, r3.Vec{X: e.num(s.X), Y: e.num(s.Y), Z: e.num(s.Z)})
		sp.tilts = append(sp.tilts, e.num(s.Tilt))
	}
	if e.err != nil {
		return nil, e.err
	}
	cum := geom.Lengths(knots)
	for i := 1; i < len(knots); i++ {
		if cum[i]-cum[i-1] < geom.Detail {
			return nil, fmt.Errorf("the steps %q and %q of the spine are one place, with this body and these settings; move them apart", steps[i-1].Name, steps[i].Name)
		}
	}
	if last := cum[len(cum)-1]; last > longestSpine {
		return nil, fmt.Errorf("the spine is %.0f mm long; %.0f mm is the most", last, longestSpine)
	}
	sp.follow(smoothThrough(knots, cum))
	for i, s := range steps {
		sp.steps = append(sp.steps, sp.at[i*spineParts])
		b.env[s.Ident] = sp.steps[i]
	}
	return sp, nil
}

// smoothThrough is a curve through knots, spineParts chords between two: a
// cubic spline over the chords' length, without a knot at the last but one of
// either end, so that it bends there as it does beside; through three a parabola.
// Source: C. de Boor, A Practical Guide to Splines, 1978, ch. IV.
func smoothThrough(knots []r3.Vec, cum []float64) []r3.Vec {
	axis := func(of func(r3.Vec) float64) func(float64) float64 {
		ys := make([]float64, len(knots))
		for i, k := range knots {
			ys[i] = of(k)
		}
		if len(knots) < 4 {
			return parabola(cum, ys)
		}
		fit := &interp.NotAKnotCubic{}
		if err := fit.Fit(cum, ys); err != nil { // chords have length, so the system is regular
			panic(err)
		}
		return fit.Predict
	}
	x, y, z := axis(func(v r3.Vec) float64 { return v.X }), axis(func(v r3.Vec) float64 { return v.Y }), axis(func(v r3.Vec) float64 { return v.Z })
	var out []r3.Vec
	for i := range len(knots) - 1 {
		for j := range spineParts {
			s := cum[i] + (cum[i+1]-cum[i])*float64(j)/spineParts
			out = append(out, r3.Vec{X: x(s), Y: y(s), Z: z(s)})
		}
	}
	return append(out, knots[len(knots)-1])
}

// parabola runs through three places, or straight through two.
func parabola(xs, ys []float64) func(float64) float64 {
	slope := (ys[1] - ys[0]) / (xs[1] - xs[0])
	bend := 0.0
	if len(xs) > 2 {
		bend = ((ys[2]-ys[1])/(xs[2]-xs[1]) - slope) / (xs[2] - xs[0])
	}
	return func(x float64) float64 { return ys[0] + (x-xs[0])*(slope+(x-xs[1])*bend) }
}

// follow carries a frame along a fine line without twisting it: two reflections
// a step. Its first angle 0 looks forward, or along a line that runs forward,
// down. Source: Wang, Jüttler, Zheng and Liu, "Computation of rotation
// minimizing frames", ACM Trans. Graphics 27(1), 2008.
func (sp *spine) follow(line []r3.Vec) {
	sp.at = geom.Lengths(line)
	n := len(line)
	tangent := func(i int) r3.Vec { return r3.Unit(r3.Sub(line[min(i+1, n-1)], line[max(i-1, 0)])) }
	y, z := tangent(0), r3.Vec{Z: 1}
	if math.Abs(y.Z) > 0.9 {
		z = r3.Vec{Y: -math.Copysign(1, y.Z)}
	}
	z = r3.Unit(r3.Sub(z, r3.Scale(r3.Dot(z, y), y)))
	for i, p := range line {
		if i > 0 {
			t := tangent(i)
			v := r3.Sub(p, line[i-1])
			zl, yl := mirroredBy(z, v), mirroredBy(y, v)
			z = mirroredBy(zl, r3.Sub(t, yl))
			y = t
			z = r3.Unit(r3.Sub(z, r3.Scale(r3.Dot(z, y), y)))
		}
		sp.frames = append(sp.frames, geom.Frame{O: p, X: r3.Cross(y, z), Y: y, Z: z})
	}
}

// mirroredBy is a vector's image in the plane square to v.
func mirroredBy(a, v r3.Vec) r3.Vec {
	l2 := r3.Norm2(v)
	if l2 == 0 {
		return a
	}
	return r3.Sub(a, r3.Scale(2*r3.Dot(a, v)/l2, v))
}

// frame is how a ring stands at a level. Beyond its ends a spine goes straight
// on.
func (sp *spine) frame(level float64) geom.Frame {
	last := len(sp.at) - 1
	i, t := geom.Locate(sp.at, level)
	f := sp.frames[min(i, last)]
	if t > 0 {
		g := sp.frames[i+1]
		f.O = geom.Lerp(f.O, g.O, t)
		f.Y = r3.Unit(geom.Lerp(f.Y, g.Y, t))
		f.Z = geom.Lerp(f.Z, g.Z, t)
		f.Z = r3.Unit(r3.Sub(f.Z, r3.Scale(r3.Dot(f.Z, f.Y), f.Y)))
		f.X = r3.Cross(f.Y, f.Z)
	}
	if past := level - min(max(level, 0), sp.at[last]); past != 0 {
		f.O = r3.Add(f.O, r3.Scale(past, f.Y))
	}
	sin, cos := math.Sincos(sp.tilt(level))
	y, z := f.Y, f.Z
	f.Y = r3.Add(r3.Scale(cos, y), r3.Scale(sin, z))
	f.Z = r3.Sub(r3.Scale(cos, z), r3.Scale(sin, y))
	return f
}

// tilt runs evenly from step to step.
func (sp *spine) tilt(level float64) float64 {
	i, t := geom.Locate(sp.steps, level)
	if t == 0 {
		return sp.tilts[min(i, len(sp.tilts)-1)]
	}
	return (1-t)*sp.tilts[i] + t*sp.tilts[i+1]
}

// length is that of the whole curve.
func (sp *spine) length() float64 { return sp.at[len(sp.at)-1] }

// standRings stands the rings square to a curved axis.
func (s *shell) standRings() error {
	sp := s.plan.spine
	if sp == nil {
		return nil
	}
	for i := range s.rings {
		f := sp.frame(s.rings[i].level)
		s.rings[i].stood = &f
		if s.plan.mirror && math.Hypot(f.O.X, math.Hypot(f.X.Y, f.X.Z)) > geom.Detail {
			return fmt.Errorf("the piece is its own mirror image, and its spine leaves the middle at ring %q; give all steps x: 0, or leave mirror out", s.plan.rings[i].name)
		}
	}
	for i := 1; i < len(s.rings); i++ {
		below, above := s.rings[i-1].stood, s.rings[i].stood
		room := math.Inf(1)
		for _, p := range s.points(i) {
			room = min(room, r3.Dot(r3.Sub(p, below.O), below.Y))
		}
		for _, p := range s.points(i - 1) {
			room = min(room, r3.Dot(r3.Sub(above.O, p), above.Y))
		}
		if room < geom.Detail {
			return fmt.Errorf("ring %q runs into ring %q: the spine bends, or they are tilted, more sharply than rings so wide can follow; make them smaller, move them apart or bend the spine less",
				s.plan.rings[i].name, s.plan.rings[i-1].name)
		}
	}
	return nil
}

// across is a direction square to the axis at a level, at an angle.
func (s *shell) across(angle, level float64) r3.Vec {
	d := shellVec(direction(angle), 0)
	if s.plan.spine != nil {
		return s.plan.spine.frame(level).Dir(d)
	}
	return d
}
