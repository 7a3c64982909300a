package photo

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// testHead is a made-up head whose truth is known, in the axes of HeadFrame.
// Its cranium is a superellipsoid.
type testHead struct {
	at      map[string]r3.Vec
	centre  r3.Vec
	half    r3.Vec // to the side, up and back
	front   float64
	level   float64 // exponents of its level sections and its profiles
	profile float64
}

// newTestHead draws a head: the mean one with every landmark moved by 4 mm, its
// pair in the mirror image by 1 mm more, its skull as broad and long as the
// survey's people.
func newTestHead(chance *rand.Rand) *testHead { return drawHead(chance, 1) }

// drawHead is newTestHead with another lack of symmetry, mm.
func drawHead(chance *rand.Rand, uneven float64) *testHead {
	n := func(sd float64) float64 { return sd * chance.NormFloat64() }
	h := &testHead{at: map[string]r3.Vec{}, level: levelExponent, profile: profileExponent}
	for _, l := range headTable {
		switch l.side() {
		case 0:
			h.at[l.Name] = r3.Add(l.mean, r3.Vec{X: n(uneven), Y: n(4), Z: n(4)})
		case 1:
			p := r3.Add(l.mean, r3.Vec{X: n(3), Y: n(4), Z: n(4)})
			h.at[l.Name] = p
			h.at[l.Pair] = r3.Add(r3.Vec{X: -p.X, Y: p.Y, Z: p.Z}, r3.Vec{X: n(uneven), Y: n(uneven), Z: n(uneven)})
		}
	}
	length, breadth, y, z := 196+n(7.5), 152+n(6.5), 45+n(5), widest+n(6)
	front := h.at["brow middle"].Z
	h.at["back of the head"] = r3.Vec{Y: 30 + n(8), Z: front - length}
	h.at["left side of the head"], h.at["right side of the head"] = r3.Vec{X: breadth / 2, Y: y, Z: z}, r3.Vec{X: -breadth / 2, Y: y, Z: z}
	h.upright()
	return h.skull()
}

// upright turns and moves the head into its own frame.
func (h *testHead) upright() {
	f := HeadFrame(h.at["left tragion"], h.at["right tragion"], h.at["left outer eye corner"], h.at["right outer eye corner"])
	for n, p := range h.at {
		h.at[n] = f.Local(p)
	}
}

// skull fits the cranium to its landmarks, egg-shaped: it is widest where the
// sides' landmarks stand. The landmarks then move to the ends of its axes.
func (h *testHead) skull() *testHead {
	l, r, f, b, t := h.at["left side of the head"], h.at["right side of the head"], h.at["brow middle"], h.at["back of the head"], h.at["crown"]
	h.centre = r3.Vec{X: (l.X + r.X) / 2, Y: (l.Y + r.Y) / 2, Z: (l.Z + r.Z) / 2}
	h.half, h.front = r3.Vec{X: (l.X - r.X) / 2, Y: t.Y - h.centre.Y, Z: h.centre.Z - b.Z}, f.Z-h.centre.Z
	ends := map[string]r3.Vec{"left side of the head": {X: h.half.X}, "right side of the head": {X: -h.half.X}, "back of the head": {Z: -h.half.Z}, "crown": {Y: h.half.Y}}
	for n, d := range ends {
		h.at[n] = r3.Add(h.centre, d)
	}
	return h
}

// asModelled makes the skull one that the solver's can be: its crown is over its
// widest place, which is where it usually is.
func (h *testHead) asModelled() *testHead {
	for _, n := range []string{"left side of the head", "right side of the head"} {
		p := h.at[n]
		h.at[n] = r3.Vec{X: p.X, Y: p.Y, Z: widest}
	}
	return h.skull()
}

// sizes are the true sizes.
func (h *testHead) sizes() map[string]float64 {
	d := func(a, b string) float64 { return r3.Norm(r3.Sub(h.at[a], h.at[b])) }
	return map[string]float64{
		"head length":    h.half.Z + h.front,
		"head breadth":   2 * h.half.X,
		"face length":    d("nose root", "chin"),
		"face breadth":   d("left cheekbone", "right cheekbone"),
		"ear to ear":     d("left tragion", "right tragion"),
		"chin to crown":  h.at["crown"].Y - h.at["chin"].Y,
		"ear to crown":   h.at["crown"].Y,
		"pupil distance": d("left pupil", "right pupil"),
	}
}

// surface is a place on the cranium.
func (h *testHead) surface(lat, lon float64) r3.Vec {
	pow := func(v, n float64) float64 { return math.Copysign(math.Pow(math.Abs(v), 2/n), v) }
	sl, cl := math.Sincos(lat)
	so, co := math.Sincos(lon)
	r, z := pow(cl, h.profile), h.half.Z
	if co > 0 {
		z = h.front
	}
	return r3.Add(h.centre, r3.Vec{X: h.half.X * r * pow(so, h.level), Y: h.half.Y * pow(sl, h.profile), Z: z * r * pow(co, h.level)})
}

// outline is the place on the cranium that stands furthest out in the picture,
// by a search over the surface that halves its steps.
func (h *testHead) outline(c Camera, far func(Pixel) float64) Pixel {
	value := func(p [2]float64) float64 { return far(c.Project(h.surface(p[0], p[1]))) }
	best, top := [2]float64{}, math.Inf(-1)
	for lat := -1.5; lat <= 1.5; lat += .25 {
		for lon := -3.0; lon <= 3; lon += .25 {
			if v := value([2]float64{lat, lon}); v > top {
				best, top = [2]float64{lat, lon}, v
			}
		}
	}
	for step := .2; step > 1e-7; {
		better := false
		for _, d := range [][2]float64{{step, 0}, {-step, 0}, {0, step}, {0, -step}, {step, step}, {-step, -step}, {step, -step}, {-step, step}} {
			p := [2]float64{best[0] + d[0], best[1] + d[1]}
			if v := value(p); v > top {
				best, top, better = p, v, true
			}
		}
		if !better {
			step /= 2
		}
	}
	return c.Project(h.surface(best[0], best[1]))
}

// testSetup is how pictures of a head are taken.
type testSetup struct {
	distance, f35 float64
	views         []View
	clicks        float64 // factor on the clicks' deviations
	exact         bool    // no errors at all
	card          bool    // a card besides the ruler
	slant         float64 // how far the card is turned and tilted; 0: .2 rad
	square        bool    // the head is turned and tilted a quarter as much as usual
}

// testShots takes pictures of a head and marks them, with the errors that the
// solve's constants state.
func testShots(chance *rand.Rand, h *testHead, set testSetup) []Shot {
	if set.views == nil {
		set.views = []View{HeadFront, HeadLeft, HeadLeftQuarter}
	}
	if set.clicks == 0 {
		set.clicks = 1
	}
	var shots []Shot
	for _, v := range set.views {
		shots = append(shots, testShot(chance, h, v, set))
	}
	return shots
}

func testShot(chance *rand.Rand, h *testHead, v View, set testSetup) Shot {
	n := func(sd float64) float64 { return sd * chance.NormFloat64() }
	const w, ht = 4000, 3000
	d := set.distance * (1 + n(.05))
	k := 1.0
	if set.square {
		k = 1. / 4
	}
	p := newPose([]float64{v.yaw() + k*n(turnSlack), k * n(tiltSlack), k * n(tiltSlack), math.Log(d), n(.03), n(.03)})
	c := Camera{p.frame(), focalPx(set.f35, w, ht), Pixel{w / 2, ht / 2}}
	s := Shot{Name: v.String(), View: v, Width: w, Height: ht, F35: set.f35, Lens: "test", Where: "wearer.yaml"}
	click := func(at Pixel, u, v float64) Pixel {
		if set.exact {
			return at
		}
		k := c.Focal / d
		return Pixel{at.X + set.clicks*math.Hypot(u*k, pixelClick)*chance.NormFloat64(), at.Y + set.clicks*math.Hypot(v*k, pixelClick)*chance.NormFloat64()}
	}
	for _, l := range headTable {
		if !l.SeenIn(v) {
			continue
		}
		at, su, sv := c.Project(h.at[l.Name]), l.Click, l.Click
		side := math.Copysign(1, p.r.mul(r3.Sub(h.at[l.Name], h.centre)).X)
		switch l.rim {
		case uAxis:
			at.X, sv = h.outline(c, func(p Pixel) float64 { return side * p.X }).X, rimSlack
		case vAxis:
			at.Y, su = h.outline(c, func(p Pixel) float64 { return -p.Y }).Y, rimSlack
		}
		s.Marks = append(s.Marks, Mark{Name: l.Name, At: click(at, su, sv)})
	}
	// the ruler's middle: beside the head, near the plane where it belongs
	length, tilt, turn, depth := 300.0, n(tiltSlack), n(.1)+math.Pi/2, n(20)
	if set.exact {
		tilt, depth = 0, 0
	}
	put := func(q, off r3.Vec) Pixel { // q in the head's axes, off in the camera's
		l := r3.Add(p.point(q), off)
		return Pixel{c.Centre.X + c.Focal*l.X/l.Z, c.Centre.Y + c.Focal*l.Y/l.Z}
	}
	plane := v.plane()
	at := r3.Vec{X: 110, Y: 20}
	if v.fromSide() {
		at = r3.Vec{Y: 0, Z: 140}
	}
	off := r3.Vec{}
	if plane == off { // as far away as the head's middle
		local := p.r.mul(at)
		off.Z = -local.Z + depth
	} else {
		at = r3.Add(at, r3.Scale(depth, plane))
	}
	dir := r3.Scale(length/2, r3.Vec{X: math.Cos(tilt) * math.Cos(turn), Y: math.Cos(tilt) * math.Sin(turn), Z: math.Sin(tilt)})
	s.Ruler = &Ruler{From: click(put(at, r3.Sub(off, dir)), RulerClick, RulerClick), To: click(put(at, r3.Add(off, dir)), RulerClick, RulerClick), Length: length}
	if set.card {
		slant := set.slant
		if slant == 0 {
			slant = .2
		}
		t := newTurns(slant*(2*chance.Float64()-1), slant*(2*chance.Float64()-1), n(.1))
		s.Card = &Card{}
		for i, k := range []r3.Vec{{X: -1, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}} {
			s.Card.Corners[i] = click(put(at, r3.Add(off, t.r.mul(r3.Vec{X: k.X * CardWidth / 2, Y: k.Y * CardHeight / 2}))), RulerClick, RulerClick)
		}
	}
	return s
}

func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	return s[len(s)/2]
}
