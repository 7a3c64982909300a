package photo

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// told is the length of a shot's ruler by all other pictures: the subject is
// solved without it, and the ruler taken to stand where rulers stand. It is
// false where no other scale is in the pictures.
func (s *Subject) told(ctx context.Context, shot int) (length, sd float64, ok bool) {
	var shots []Shot
	scales := 0
	for i, q := range s.Shots {
		if i == shot {
			q.Ruler = nil
		}
		if q.Ruler != nil || q.Card != nil {
			scales++
		}
		shots = append(shots, q)
	}
	if scales == 0 {
		return 0, 0, false
	}
	without, err := s.model.fig.solve(ctx, shots, s)
	if err != nil {
		return 0, 0, false
	}
	d, _ := without.Distance(shot)
	r, focal := s.Shots[shot].Ruler, without.Cameras[shot].Focal
	px := math.Hypot(r.To.X-r.From.X, r.To.Y-r.From.Y)
	click := math.Sqrt2 * math.Hypot(RulerClick*focal/d, pixelClick) / px
	v, c := without.model.views[shot], without.best.cov
	scale := c.At(v.at+3, v.at+3) + c.At(v.lens, v.lens) - 2*c.At(v.at+3, v.lens) // variance of log(d/focal)
	depth, tilt := s.model.fig.depth/d, 1-math.Cos(1.5*tiltSlack)
	share := math.Sqrt(scale + depth*depth + click*click + tilt*tilt)
	return px * d / focal, share * px * d / focal, true
}

// odds is by how many deviations a ruler's depth and tilt had to give way.
func (s *Subject) odds(v *view, k *stick) float64 {
	p := newPose(s.best.x[v.at : v.at+poseSize])
	u := s.best.x[k.at : k.at+k.unknowns()]
	z := p.d * math.Exp(u[2])
	off := r3.Sub(r3.Vec{X: z * u[0], Y: z * u[1], Z: z}, p.t)
	n := r3.Vec{Z: 1}
	if k.plane != (r3.Vec{}) {
		n = p.r.mul(k.plane)
	}
	return math.Hypot(r3.Dot(n, off)/k.depth, u[4]/tiltSlack)
}

// shift tells by how much a landmark stands off in one view alone along a
// direction of the subject's, with its deviation, and how surprising the mark
// still is after that. Weighted least squares of what the others expect.
func (s *Subject) shift(v *view, k int, dir r3.Vec) (size, sd, left float64) {
	b := v.marks[k]
	row := s.best.rows.blocks[b].from
	j := s.best.judge(row, s.best.weights[b])
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
