package photo

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// How cameras, rulers and subjects usually stand. Judgement, and the
// reference's simulation.
const (
	turnSlack  = 6 * math.Pi / 180 // of the nominal yaw
	tiltSlack  = 5 * math.Pi / 180 // pitch and roll of the subject; tilt of a ruler away from the picture's plane
	cardTilt   = 20 * math.Pi / 180
	pixelClick = .5  // px: nobody clicks better
	RulerClick = .5  // mm: how well a ruler's figures and a card's corners can be placed (standard deviation)
	tapedShare = .02 // of a taped distance
	tapedFrom  = 20. // mm: where on head and lens the tape was held
	focalShare = .02 // EXIF gives whole millimetres
	focalGuess = 35. // mm on 36 × 24 mm film, when it is not known
	focalDoubt = .5  // standard deviation of its logarithm then
)

// newModel is a figure before the cameras of shots, and the place to start
// from: the mean figure in nominal views, at the distances that rulers tell.
func newModel(f *figure, shots []Shot) (*model, []float64) {
	m := &model{fig: f, spread: 1, n: 3*len(f.landmarks) + 1}
	var x []float64
	for _, l := range f.landmarks {
		x = append(x, l.mean.X, l.mean.Y, l.mean.Z)
	}
	x = append(x, 1)
	for i := range shots {
		v := &view{shot: &shots[i], at: m.n, cx: float64(shots[i].Width) / 2, cy: float64(shots[i].Height) / 2}
		v.diag = math.Hypot(float64(shots[i].Width), float64(shots[i].Height))
		x = append(x, v.start(f)...)
		m.n = len(x)
		m.views = append(m.views, v)
	}
	known := map[string]int{}
	for i, v := range m.views {
		key := fmt.Sprintf("%s %g", v.shot.Lens, v.shot.F35)
		if v.shot.Lens == "" {
			key = fmt.Sprint(i)
		}
		if at, ok := known[key]; ok {
			v.lens = at
			continue
		}
		v.lens, known[key] = m.n, m.n
		l := lens{m.n, math.Log(v.focal() / v.diag), focalShare}
		if v.shot.F35 == 0 {
			l.sd = focalDoubt
		}
		m.lenses, x, m.n = append(m.lenses, l), append(x, l.nominal), m.n+1
	}
	return m, x
}

// focal is the nominal focal length, px.
func (v *view) focal() float64 {
	f35 := v.shot.F35
	if f35 == 0 {
		f35 = focalGuess
	}
	return focalPx(f35, v.shot.Width, v.shot.Height)
}

// start sets the view's sights and priors up and gives its unknowns.
func (v *view) start(f *figure) []float64 {
	p := pose{turns: newTurns(v.shot.View.yaw(), 0, 0)}
	p.d = v.distance(f, &p)
	focal := v.focal()
	for i, mark := range v.shot.Marks {
		at := f.index(mark.Name)
		l := f.landmarks[at]
		c := p.r.mul(l.mean)
		p.a += ((mark.At.X-v.cx)/focal - c.X/p.d) / float64(len(v.shot.Marks))
		p.b += ((mark.At.Y-v.cy)/focal - c.Y/p.d) / float64(len(v.shot.Marks))
		v.sights = append(v.sights, v.sight(f, i, at, focal/p.d))
	}
	v.marks = make([]int, len(v.sights))
	v.rests = [6]rest{{v.shot.View.yaw(), turnSlack}, {0, tiltSlack}, {0, tiltSlack}, {math.Log(p.d), 1}}
	if d := v.shot.Distance; d > 0 {
		along := d / math.Sqrt(1+p.a*p.a+p.b*p.b)
		v.rests[3] = rest{math.Log(along), math.Hypot(tapedShare, tapedFrom/d)}
	}
	x := []float64{v.shot.View.yaw(), 0, 0, math.Log(p.d), p.a, p.b}
	return append(x, v.addSticks(f, v.at+len(x), focal, p.d)...)
}

// sight is a mark with its deviations in pixels; scale is px per mm.
func (v *view) sight(f *figure, mark, landmark int, scale float64) sight {
	mk, l := v.shot.Marks[mark], f.landmarks[landmark]
	s := sight{landmark: landmark, mark: mark, at: mk.At, su: mk.SD * scale}
	if mk.SD == 0 {
		s.su = math.Hypot(l.Click*scale, pixelClick)
	}
	s.sv = s.su
	slack := math.Hypot(rimSlack*scale, pixelClick)
	r := newTurns(v.shot.View.yaw(), 0, 0).r
	switch c := r.mul(l.mean); l.rim {
	case uAxis:
		s.sv, s.side = max(s.sv, slack), math.Copysign(1, c.X)
		s.nearer = l.bulge
	case vAxis:
		s.su, s.side = max(s.su, slack), math.Copysign(1, c.Y)
		s.nearer = l.bulge * (v.cy - mk.At.Y) / v.focal()
	}
	return s
}

// distance is roughly how far the subject is: by its ruler or card, the taped
// distance, or the size that its marks have in the picture.
func (v *view) distance(f *figure, p *pose) float64 {
	focal := v.focal()
	switch s := v.shot; {
	case s.Ruler != nil:
		return focal * s.Ruler.Length / math.Hypot(s.Ruler.To.X-s.Ruler.From.X, s.Ruler.To.Y-s.Ruler.From.Y)
	case s.Card != nil:
		return focal * math.Sqrt(CardWidth*CardHeight/math.Abs(quadArea(s.Card.Corners)))
	case s.Distance > 0:
		return s.Distance
	}
	var marks, means []Pixel
	for _, mark := range v.shot.Marks {
		c := p.r.mul(f.landmarks[f.index(mark.Name)].mean)
		marks, means = append(marks, mark.At), append(means, Pixel{c.X, c.Y})
	}
	return focal * spread(means) / spread(marks)
}

// spread is the root mean square distance from the mean.
func spread(at []Pixel) float64 {
	var x, y, s float64
	n := float64(len(at))
	for _, p := range at {
		x, y = x+p.X/n, y+p.Y/n
	}
	for _, p := range at {
		s += (p.X-x)*(p.X-x) + (p.Y-y)*(p.Y-y)
	}
	return math.Sqrt(s / n)
}

// quadArea is positive for corners that run clockwise in the picture.
func quadArea(c [4]Pixel) float64 {
	var a float64
	for i, p := range c {
		q := c[(i+1)%4]
		a += (p.X*q.Y - q.X*p.Y) / 2
	}
	return a
}

// addSticks adds the shot's ruler and card and gives their unknowns.
func (v *view) addSticks(f *figure, at int, focal, distance float64) []float64 {
	var x []float64
	add := func(points []Pixel, shape []r3.Vec, rests []rest, dir ...float64) {
		s := stick{at: at + len(x), points: points, shape: shape, rests: rests, depth: f.depth,
			sd: math.Hypot(RulerClick*focal/distance, pixelClick), plane: v.shot.View.plane()}
		var a, b float64
		for _, p := range points {
			a += (p.X - v.cx) / focal / float64(len(points))
			b += (p.Y - v.cy) / focal / float64(len(points))
		}
		x = append(append(x, a, b, 0), dir...)
		v.sticks = append(v.sticks, s)
	}
	if r := v.shot.Ruler; r != nil {
		h := r3.Vec{X: r.Length / 2 * (1 - f.shortens)}
		angle := math.Atan2(r.To.Y-r.From.Y, r.To.X-r.From.X)
		add([]Pixel{r.From, r.To}, []r3.Vec{r3.Scale(-1, h), h}, []rest{{angle, math.Pi}, {0, tiltSlack}}, angle, 0)
		stick := &v.sticks[len(v.sticks)-1]
		stick.sd = math.Hypot(stick.sd, f.scatter*r.Length/math.Sqrt2*focal/distance)
	}
	if c := v.shot.Card; c != nil {
		turned, _, ok := cardPose(cardShape, c.Corners[:], v.cx, v.cy, focal)
		if !ok {
			turned = [3]float64{0, 0, math.Atan2(c.Corners[1].Y-c.Corners[0].Y, c.Corners[1].X-c.Corners[0].X)}
		}
		add(c.Corners[:], cardShape, []rest{{0, cardTilt}, {0, cardTilt}, {turned[2], math.Pi}}, turned[:]...)
	}
	return x
}

// plane is the plane of the subject, by its normal, in which a ruler is held:
// through the ears in a front view, the middle of the subject in a side view;
// zero where it is only held as far away as the subject.
func (v View) plane() r3.Vec {
	switch {
	case v.fromSide():
		return r3.Vec{X: 1}
	case v.yaw() == 0:
		return r3.Vec{Z: 1}
	}
	return r3.Vec{}
}
