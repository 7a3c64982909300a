package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/synth"
)

// The dummy's paints.
var (
	skin  = synth.RGB(0xE3B18C)
	blush = synth.RGB(0xD98A6E)
	lip   = synth.RGB(0xB85F55)
	line  = synth.RGB(0x5A3328)
	brow  = synth.RGB(0x4A2C22)
	white = synth.RGB(0xF6F1E8)
	iris  = synth.RGB(0x3F7A6A)
	black = synth.RGB(0x15110F)
	hair  = synth.RGB(0x5B2F1F)
	shine = synth.RGB(0x8A4C30)
)

// face is where the features are painted, in head coordinates: y up and z
// forward from between the tragions.
type face struct {
	eye                    r3.Vec // the left pupil
	length                 float64
	root, base, mouth, top float64 // levels of nose root, nose base, mouth and brow line
	chin                   float64
	ear                    r3.Vec // middle of an ear, x outwards
	earHigh, earWide       float64
	tragion                r3.Vec // the left one
}

func newFace(f *body.Form) *face {
	head, _ := f.Part(body.Head, body.Both)
	level := func(name string) float64 { l, _ := head.Station(name); return l }
	size := func(n body.Name) float64 { m, _ := f.Measurements().Get(n, body.Both); return m.Value }
	d := &face{eye: head.Frame.Local(f.Eyes()[0]), length: size("face length"), base: level("nose base"), mouth: level("mouth"), top: level("brow"), chin: level("chin")}
	d.root = d.chin + d.length
	d.ear = r3.Vec{Y: 4, Z: -.35 * size("ear breadth")}
	h := synth.FormHead(f)
	d.tragion = head.Frame.Local(h.Place.Point(h.Points["left tragion"]))
	d.earHigh, d.earWide = size("ear length")/2, size("ear breadth")/2
	return d
}

// bump falls from 1 at the middle to 0, softly, over about r.
func bump(d, r float64) float64 { return math.Exp(-d * d / (r * r)) }

// edge is 1 inside (d < 0) and 0 outside, with a soft line of half a mm.
func edge(d float64) float64 { return min(1, max(0, .5-d/.5)) }

// paint is the colour of the head at a place.
func (d *face) paint(p r3.Vec) synth.Colour {
	c := d.skin(p)
	if p.Z > 0 {
		c = d.lips(c, p)
		c = d.eyes(c, p)
	}
	dot := r3.Vec{X: math.Copysign(d.tragion.X, p.X), Y: d.tragion.Y, Z: d.tragion.Z}
	c = synth.Mix(c, black, .85*edge(r3.Norm(r3.Sub(p, dot))-1.8)) // as drawn on with a soft pencil
	return d.hair(c, p)
}

func (d *face) skin(p r3.Vec) synth.Colour {
	x := math.Abs(p.X)
	if p.Z < 0 {
		return skin
	}
	c := synth.Mix(skin, blush, .55*bump(math.Hypot(x-40, p.Y-(d.base+12)), 20))
	socket := bump(math.Hypot((x-d.eye.X)/1.5, p.Y-d.eye.Y-4), 11)
	c = synth.Mix(c, line, .30*socket)
	c = synth.Mix(c, line, .22*bump(math.Hypot(x/16, (p.Y-(d.mouth-15))/2.2), 1))    // hollow under the lip
	c = synth.Mix(c, line, .12*bump(math.Hypot(x/4, (p.Y-(d.base+d.mouth)/2)/8), 1)) // groove over it
	return synth.Mix(c, line, .35*bump(math.Hypot((x-13)/9, (p.Y-d.base)/3), 1))     // shade of the nose
}

// lips: an upper one with two peaks, a fuller lower one, a line between.
func (d *face) lips(c synth.Colour, p r3.Vec) synth.Colour {
	const half = 24
	x := math.Abs(p.X) / half
	if x > 1.15 {
		return c
	}
	y := p.Y - d.mouth - 2.5*x*x // the corners stand a little higher
	fade := max(0, 1-x*x)
	upper := 6.2*math.Sqrt(fade)*(1-.35*x) - 1.6*bump(x, .16)
	lower := 8 * math.Pow(fade, .8)
	if y >= 0 {
		c = synth.Mix(c, lip, edge(y-upper))
	} else {
		c = synth.Mix(c, synth.Mix(lip, skin, .15+.2*bump(math.Hypot(x*2, (y+4)/2), 1)), edge(-y-lower))
	}
	return synth.Mix(c, line, .9*edge(math.Abs(y)-.55*(1.1-.5*x))*edge((x-1)*half))
}

// eyes are almonds with iris, pupil, a spark, a lid line, and a brow above.
func (d *face) eyes(c synth.Colour, p r3.Vec) synth.Colour {
	x, y := math.Abs(p.X)-d.eye.X, p.Y-d.eye.Y
	const half = 14.0
	t := x / half
	open := max(0, 1-t*t)
	upper, lower := 6.4*math.Pow(open, .7), -4.9*math.Pow(open, .85)
	if math.Abs(t) < 1 && y < upper && y > lower {
		c = white
		c = synth.Mix(c, line, .25*edge(y-upper+.1)*bump(y-upper, 2))
		r := math.Hypot(x, y)
		c = synth.Mix(c, synth.Mix(iris, black, .6*edge(4.9-r)), edge(r-5.8))
		c = synth.Mix(c, black, edge(r-2.4))
		c = synth.Mix(c, white, edge(math.Hypot(p.X-math.Copysign(d.eye.X, p.X)-1.7, y-2.1)-1))
	}
	if math.Abs(t) < 1.12 {
		c = synth.Mix(c, line, edge(math.Abs(y-upper-.3)-.8)*edge((math.Abs(t)-1.03)*half))
		c = synth.Mix(c, line, .45*edge(math.Abs(y-lower)-.35)*edge((math.Abs(t)-1)*half))
		c = synth.Mix(c, line, .30*edge(math.Abs(y-upper-4.2)-.45)*edge((math.Abs(t)-.85)*half))
	}
	u := (x - 2) / 20 // the brow
	arc := 15.5 - 4*(u-.25)*(u-.25)
	if math.Abs(u) > 1 {
		return c
	}
	thick := 2.2 * math.Sqrt(1-u*u) * (1 - .35*u)
	return synth.Mix(c, brow, .9*edge((math.Abs(y-arc)-thick)/2))
}

// hair is a cap with a parting line of its own: from over the brow past the
// temples and behind the ears to the nape.
func (d *face) hair(c synth.Colour, p r3.Vec) synth.Colour {
	angle := math.Abs(math.Atan2(p.X, p.Z))
	const temple, behind = 80 * math.Pi / 180, 112 * math.Pi / 180
	front, nape := d.top+34, d.chin+22
	var low float64
	switch {
	case angle < temple:
		low = front + (22-front)*math.Pow(angle/temple, 3.2)
	case angle < behind:
		low = 22 + (nape-22)*(angle-temple)/(behind-temple)
	default:
		low = nape
	}
	strand := math.Sin(90*math.Atan2(p.X, p.Y-d.top+8)+2*math.Sin(p.Z/17)) * math.Sin(37*math.Atan2(p.X, p.Y-d.top+8)+1)
	colour := synth.Mix(hair, shine, .25+.25*strand+.35*bump(p.Y-d.top-55, 18))
	return synth.Mix(c, colour, edge(low-p.Y))
}

// earPaint has the rim's groove, the shell and the ear hole.
func (d *face) earPaint(p r3.Vec) synth.Colour {
	y, z := (p.Y-d.ear.Y)/d.earHigh, (p.Z-d.ear.Z)/d.earWide
	r := math.Hypot(y, z)
	groove := bump((r-.68)/.09, 1) * min(1, max(0, .9-z*1.4))
	c := synth.Mix(skin, line, .55*groove)
	c = synth.Mix(c, line, .6*bump(math.Hypot((y+.12)/.42, (z-.18)/.36), 1))
	return synth.Mix(c, black, .6*bump(math.Hypot((y+.12)/.12, (z-.42)/.12), 1))
}

// nosePaint darkens the nostrils.
func (d *face) nosePaint(p r3.Vec) synth.Colour {
	c := synth.Mix(skin, blush, .35*bump(p.Y-d.base-6, 9))
	x := math.Abs(p.X)
	c = synth.Mix(c, line, .75*bump(math.Hypot((x-7)/3.6, (p.Y-d.base-1)/2.6), 1))
	return synth.Mix(c, line, .20*bump(math.Hypot((x-15)/2.5, (p.Y-d.base-6)/7), 1)) // the wing's crease
}
