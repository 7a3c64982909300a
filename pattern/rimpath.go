package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// rimPath is a drawn edge as it is seen from within the piece.
type rimPath struct {
	eye   eye
	walls *walls
	at    []bearing // in the direction of growing angles
}

// bearing is a place on the piece: its angle from forward, its level, and how
// far out it stands.
type bearing struct{ angle, level, out float64 }

// bearings are places in turn, their angles without jumps.
func (r *rimPath) bearings(pts []r3.Vec) []bearing {
	out := make([]bearing, len(pts))
	middle := len(pts) / 2
	put := func(i int, near float64) {
		v := r3.Sub(pts[i], r.eye.at)
		a := math.Atan2(v.X, v.Z)
		out[i] = bearing{a + 2*math.Pi*math.Round((near-a)/(2*math.Pi)), pts[i].Y, math.Hypot(v.X, v.Z)}
	}
	put(middle, 0)
	for i := middle - 1; i >= 0; i-- {
		put(i, out[i+1].angle)
	}
	for i := middle + 1; i < len(pts); i++ {
		put(i, out[i-1].angle)
	}
	return out
}

// follow takes the spots as they were drawn.
func (r *rimPath) follow(spots []spot) {
	var pts []r3.Vec
	for _, s := range spots {
		if !s.beside {
			pts = append(pts, s.p)
		}
	}
	r.at = r.bearings(pts)
	r.ascend()
}

func (r *rimPath) ascend() {
	if n := len(r.at); n > 0 && r.at[0].angle > r.at[n-1].angle {
		slices.Reverse(r.at)
	}
}

// through takes the spots, and where the rays to them leave the piece on its far
// side; or, past a rim or at a gap, would leave it if it went on there.
func (r *rimPath) through(e eye, spots []spot) {
	depth := func(p r3.Vec) float64 { return -r3.Dot(r3.Sub(p, e.at), e.toward) }
	var pts, out []r3.Vec
	var guess []bool
	for _, s := range spots {
		if !s.beside {
			pts = append(pts, s.p)
		}
		switch {
		case s.left:
			out, guess = append(out, s.out), append(guess, false)
		case !s.beside && depth(s.p) < depth(r.eye.at):
			out, guess = append(out, e.atDepth(s.q, 2*depth(r.eye.at)-depth(s.p))), append(guess, true)
		}
	}
	slices.Reverse(out)
	slices.Reverse(guess)
	r.at = r.bearings(append(pts, out...))
	r.at = onwards(r.at, append(make([]bool, len(pts)), guess...))
	r.ascend()
}

// onwards leaves out guessed places that would lead the path back.
func onwards(at []bearing, guess []bool) []bearing {
	sense := at[len(at)-1].angle - at[0].angle
	var out []bearing
	for i, b := range at {
		if !guess[i] {
			out = append(out, b)
			continue
		}
		next := i + 1
		for next < len(at) && guess[next] {
			next++
		}
		on := (b.angle-out[len(out)-1].angle)*sense > 0
		if next < len(at) {
			on = on && (at[next].angle-b.angle)*sense > 0
		}
		if on {
			out = append(out, b)
		}
	}
	return out
}

// halves takes the spots on the half that is seen from the side, carries them
// on to the middle line at both ends, and mirrors them.
func (r *rimPath) halves(spots []spot, right bool) {
	if right {
		spots = append([]spot(nil), spots...)
		for i := range spots {
			spots[i].p = mirrorX(spots[i].p)
		}
	}
	r.follow(spots)
	r.at = onHalf(r.at)
	if len(r.at) < 2 {
		r.at = nil
		return
	}
	r.carryOn(0)
	r.carryOn(math.Pi)
	var image []bearing
	for i := len(r.at) - 1; i > 0; i-- {
		image = append(image, bearing{-r.at[i].angle, r.at[i].level, r.at[i].out})
	}
	r.at = append(image, r.at[:len(r.at)-1]...)
}

// onHalf is what lies between forward and backward on the left, cut at the
// middle line.
func onHalf(at []bearing) []bearing {
	var out []bearing
	for i, b := range at {
		in := b.angle >= 0 && b.angle <= math.Pi
		if i > 0 {
			a := at[i-1]
			for _, edge := range []float64{0, math.Pi} {
				if (a.angle < edge) != (b.angle < edge) {
					t := (edge - a.angle) / (b.angle - a.angle)
					out = append(out, bearing{edge, a.level + t*(b.level-a.level), a.out + t*(b.out-a.out)})
				}
			}
		}
		if in {
			out = append(out, b)
		}
	}
	return out
}

// carryStep (detail) is the angle in which a rim is carried on.
const carryStep = 2 * math.Pi / 180

// carryOn leads the path on to the middle line at an angle, on the level of its
// end: what cannot be seen there lies behind the outline that the curve ends at.
func (r *rimPath) carryOn(middle float64) {
	end := 0
	if middle > 0 {
		end = len(r.at) - 1
	}
	e := r.at[end]
	reach := e.angle - middle
	if math.Abs(reach) < sameAngle {
		return
	}
	steps := max(int(math.Ceil(math.Abs(reach)/carryStep)), 1)
	var on []bearing
	for k := range steps {
		b := bearing{middle + reach*float64(k)/float64(steps), e.level, e.out}
		if out, ok := r.walls.out(r.eye, b.angle, b.level); ok {
			b.out = out
		}
		on = append(on, b)
	}
	if middle > 0 {
		slices.Reverse(on)
		r.at = append(r.at, on...)
		return
	}
	r.at = append(on, r.at...)
}

// out is how far the piece stands from the upright through the eye at an angle
// and a level.
func (w *walls) out(e eye, angle, level float64) (float64, bool) {
	s, c := math.Sincos(angle)
	from := r3.Vec{X: e.at.X, Y: level, Z: e.at.Z}
	p, ok := w.hit(from, r3.Vec{X: s, Z: c}, true)
	return geom.Dist(p, from), ok
}

// turns is how often the path goes round.
func (r *rimPath) turns() float64 {
	sum := 0.0
	for i, b := range r.at {
		d := r.at[(i+1)%len(r.at)].angle - b.angle
		sum += d - 2*math.Pi*math.Round(d/(2*math.Pi))
	}
	return sum / (2 * math.Pi)
}

// fine (detail): points of a path nearer than this, mm, are one.
const fine = 0.01

// cutout is what lies below the path, or above it.
func (r *rimPath) cutout(name string, lower bool) *cutout {
	c := &cutout{kind: rims, name: name, eye: r.eye}
	at := r.at
	far := 1e4
	if lower { // seen from outside, what is below lies on the left of a curve that runs to the left
		slices.Reverse(at)
		far = -far
	}
	for _, b := range at {
		s, k := math.Sincos(b.angle)
		p := r3.Add(r.eye.at, r3.Vec{X: b.out * s, Y: b.level - r.eye.at.Y, Z: b.out * k})
		if n := len(c.curve); n > 0 && geom.Dist(c.curve[n-1], p) < fine || n > 0 && geom.Dist(c.curve[0], p) < fine {
			continue
		}
		c.curve = append(c.curve, p)
		c.region = append(c.region, r2.Vec{X: b.angle, Y: (b.level - r.eye.at.Y) / b.out})
	}
	first := c.region[0]
	turn := math.Copysign(2*math.Pi, at[len(at)-1].angle-at[0].angle)
	c.region = append(c.region, r2.Vec{X: first.X + turn, Y: first.Y}, r2.Vec{X: first.X + turn, Y: far}, r2.Vec{X: first.X, Y: far})
	return c
}
