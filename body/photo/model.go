package photo

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// model is a figure before cameras, as a least-squares problem. Its unknowns
// are the landmarks' coordinates and the subject's size, then those of each view's pose, ruler and
// card, then a focal length for each lens.
type model struct {
	fig    *figure
	views  []*view
	lenses []lens
	n      int
	spread float64 // factor on the deviations of everything marked
}

// lens is a focal length that pictures share: the logarithm of its ratio to the
// picture's diagonal.
type lens struct {
	at      int // its unknown
	nominal float64
	sd      float64
}

// view is one shot in a model.
type view struct {
	shot   *Shot
	at     int // its pose's first unknown
	lens   int // its focal length's unknown
	diag   float64
	cx, cy float64
	sights []sight
	sticks []stick
	marks  []int   // block of each sight in the rows
	rests  [6]rest // of the pose
}

// rest is a weak prior of an unknown: its deviation is 0 if there is none.
type rest struct{ value, sd float64 }

// sight is a landmark marked in a view.
type sight struct {
	landmark int
	mark     int // in the shot
	at       Pixel
	su, sv   float64 // deviations in u and v, px
	side     float64 // of a rim point: +1 right or below
	nearer   float64 // mm that the outline is seen nearer than the landmark
}

// size is the number of unknowns.
func (m *model) size() int { return m.n }

// rows are the weighted residuals at x.
func (m *model) rows(x []float64, r *rows) {
	size := 3 * len(m.fig.landmarks)
	for _, e := range m.fig.linear {
		e.row(x, size, r)
	}
	r.row((x[size] - 1) / sizeSlack)
	r.term(size, 1/sizeSlack)
	for _, l := range m.lenses {
		r.row((x[l.at] - l.nominal) / l.sd)
		r.term(l.at, 1/l.sd)
	}
	r.block(false, false)
	for _, v := range m.views {
		v.rows(m, x, r)
	}
}

// row writes an equation, with target and deviation in proportion to the
// subject's size: otherwise people would be pulled towards the mean, and all
// equations met best by a subject of no size at all.
func (e *linear) row(x []float64, size int, r *rows) {
	var sum float64
	sd := e.sd * x[size]
	for _, t := range e.terms {
		sum += t.k * x[3*t.landmark+t.axis]
	}
	r.row(sum/sd - e.target/e.sd)
	for _, t := range e.terms {
		r.term(3*t.landmark+t.axis, t.k/sd)
	}
	r.term(size, -sum/(sd*x[size]))
}

func (m *model) landmark(x []float64) func(i int) r3.Vec {
	return func(i int) r3.Vec { return r3.Vec{X: x[3*i], Y: x[3*i+1], Z: x[3*i+2]} }
}

func (v *view) rows(m *model, x []float64, r *rows) {
	p := newPose(x[v.at : v.at+poseSize])
	e := eye{v: v, pose: &p, focal: v.diag * math.Exp(x[v.lens]), r: r, spread: m.spread}
	for i, q := range v.rests {
		if q.sd > 0 {
			r.row((x[v.at+i] - q.value) / q.sd)
			r.term(v.at+i, 1/q.sd)
		}
	}
	r.block(false, false)
	at := m.landmark(x)
	for i, s := range v.sights {
		l := m.fig.landmarks[s.landmark]
		e.mark(m, s, l, at)
		v.marks[i] = r.block(true, true)
	}
	for i := range v.sticks {
		v.sticks[i].rows(&e, x)
	}
}

// eye writes what one camera sees as rows.
type eye struct {
	v      *view
	pose   *pose
	focal  float64
	r      *rows
	spread float64
}

// slope is how a point in the camera's axes moves with an unknown.
type slope struct {
	col int
	d   r3.Vec
}

// point writes the two rows of a point at c in the camera's axes that was
// marked at a place.
func (e *eye) point(c r3.Vec, slopes []slope, at Pixel, su, sv float64) {
	e.across(c, slopes, at, su)
	e.down(c, slopes, at, sv)
}

func (e *eye) across(c r3.Vec, slopes []slope, at Pixel, sd float64) {
	u := c.X / c.Z
	e.axis(u, e.v.cx-at.X, sd, func(d r3.Vec) float64 { return (d.X - u*d.Z) / c.Z }, slopes)
}

func (e *eye) down(c r3.Vec, slopes []slope, at Pixel, sd float64) {
	v := c.Y / c.Z
	e.axis(v, e.v.cy-at.Y, sd, func(d r3.Vec) float64 { return (d.Y - v*d.Z) / c.Z }, slopes)
}

func (e *eye) axis(u, off, sd float64, slope func(d r3.Vec) float64, slopes []slope) {
	k := e.focal / (sd * e.spread)
	e.r.row(k*u + off/(sd*e.spread))
	for _, s := range slopes {
		e.r.term(s.col, k*slope(s.d))
	}
	e.r.term(e.v.lens, k*u)
}

// mark writes the rows of a landmark: a point, or a place of the outline.
func (e *eye) mark(m *model, s sight, l Landmark, at func(int) r3.Vec) {
	p := at(s.landmark)
	c := e.pose.point(p)
	slopes := make([]slope, 0, 9)
	for i := range 3 {
		slopes = append(slopes, slope{3*s.landmark + i, e.pose.r.col(i)})
	}
	for i, d := range e.pose.slopes(p) {
		slopes = append(slopes, slope{e.v.at + i, d})
	}
	switch outline := m.fig.skull.has(s.landmark); {
	case outline && l.rim == uAxis:
		e.rim(m.fig.skull, at, l.rim, s)
		e.down(c, slopes, s.at, s.sv)
	case outline && l.rim == vAxis:
		e.across(c, slopes, s.at, s.su)
		e.rim(m.fig.skull, at, l.rim, s)
	default:
		c.Z -= s.nearer
		e.point(c, slopes, s.at, s.su, s.sv)
	}
}

// rim writes the row of a place on the skull's outline.
func (e *eye) rim(k *skull, at func(int) r3.Vec, ax axis, s sight) {
	off, sd := e.v.cx-s.at.X, s.su
	if ax == vAxis {
		off, sd = e.v.cy-s.at.Y, s.sv
	}
	q, moves := k.cranium(s.landmark, at)
	t, ok := newTangent(q, e.pose, ax, s.side)
	if !ok {
		t.at = math.NaN() // the step went astray; it will be refused
	}
	w := e.focal / (sd * e.spread)
	e.r.row(w*t.at + off/(sd*e.spread))
	for _, mv := range moves {
		e.r.term(3*mv.landmark+mv.axis, w*t.slope(mv.cranium, nil, e.pose.r.mul(mv.centre)))
	}
	for i, d := range e.pose.slopes(q.centre) {
		var turn *mat3
		if i < 3 {
			turn = &e.pose.slope[i]
		}
		e.r.term(e.v.at+i, w*t.slope(cranium{}, turn, d))
	}
	e.r.term(e.v.lens, w*t.at)
}
