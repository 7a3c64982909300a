package photo

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// told is how much larger a shot's ruler or card is than it is said to be, by
// everything else: the subject is solved without it, and the thing taken to stand
// where such things stand. It is false where nothing else tells a scale.
func (s *Subject) told(ctx context.Context, shot int, card bool) (q suspect, ok bool) {
	shots := slices.Clone(s.Shots)
	shots[shot].leaveOut(card)
	if !slices.ContainsFunc(shots, func(q Shot) bool { return q.Ruler != nil || q.Card != nil }) {
		return q, false
	}
	without, err := s.model.fig.solve(ctx, shots, s)
	if err != nil {
		return q, false
	}
	d, _ := without.Distance(shot)
	v, c, focal := without.model.views[shot], without.best.cov, without.Cameras[shot].Focal
	perMM, slack := s.Shots[shot].looks(card, v, focal)
	click := math.Sqrt2 * math.Hypot(RulerClick, pixelClick*d/focal) / CardWidth
	if !card {
		click *= CardWidth / s.Shots[shot].Ruler.Length
	}
	scale := c.At(v.at+3, v.at+3) + c.At(v.lens, v.lens) - 2*c.At(v.at+3, v.lens) // variance of log(d/focal)
	depth := s.model.fig.depth / d
	factor := perMM * d / focal
	sd := factor * math.Sqrt(scale+depth*depth+click*click+slack*slack)
	return suspect{shot, card, math.Abs(factor-1) / sd, factor, sd, without}, true
}

// looks is how large a ruler or card looks, px per mm, and how much its tilt
// leaves open of that: a ruler's is not seen, a card's is.
func (s *Shot) looks(card bool, v *view, focal float64) (perMM, slack float64) {
	if card {
		if _, distance, ok := cardPose(cardShape, s.Card.Corners[:], v.cx, v.cy, focal); ok {
			return focal / distance, 0
		}
		return math.Sqrt(math.Abs(quadArea(s.Card.Corners)) / (CardWidth * CardHeight)), 1 - math.Cos(cardTilt)
	}
	px := math.Hypot(s.Ruler.To.X-s.Ruler.From.X, s.Ruler.To.Y-s.Ruler.From.Y)
	return px / s.Ruler.Length, 1 - math.Cos(1.5*tiltSlack)
}

// odds is by how many deviations a stick's depth, and a ruler's tilt, had to give
// way.
func (s *Subject) odds(v *view, k *stick) float64 {
	p := newPose(s.best.x[v.at : v.at+poseSize])
	u := s.best.x[k.at : k.at+k.unknowns()]
	z := p.d * math.Exp(u[2])
	off := r3.Sub(r3.Vec{X: z * u[0], Y: z * u[1], Z: z}, p.t)
	n := r3.Vec{Z: 1}
	if k.plane != (r3.Vec{}) {
		n = p.r.mul(k.plane)
	}
	if k.card() {
		return math.Abs(r3.Dot(n, off)) / k.depth
	}
	return math.Hypot(r3.Dot(n, off)/k.depth, u[4]/tiltSlack)
}

// shift tells by how much a landmark stands off in one view alone along a
// direction of the subject's, with its deviation, and how surprising the mark
// still is after that. Weighted least squares of what the others expect.
func (s *Subject) shift(v *view, k int, dir r3.Vec) (size, sd, left float64) {
	b := v.marks[k]
	row := s.best.rows.blocks[b].from
	j := s.best.judge(row, s.best.weights[b]).of(s.hand())
	var c [2]float64
	for i := range c {
		cols, vals := s.best.rows.terms(row + i)
		for t, col := range cols {
			if a := col - 3*v.sights[k].landmark; a >= 0 && a < 3 {
				c[i] += vals[t] * [3]float64{dir.X, dir.Y, dir.Z}[a]
			}
		}
	}
	w := j.s.times(j.rest.inverse()) // the inverse covariance of what is expected
	e, f := j.expects()
	wc := [2]float64{w.a*c[0] + w.b*c[1], w.b*c[0] + w.c*c[1]}
	curve := wc[0]*c[0] + wc[1]*c[1]
	size, sd = -(wc[0]*e+wc[1]*f)/curve, 1/math.Sqrt(curve)
	all, _ := j.both()
	return size, sd, all - size*size/(sd*sd)
}
