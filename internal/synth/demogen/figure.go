package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/synth"
)

// What Wren wears under the armour, and the room.
var (
	suit   = synth.RGB(0x2F4650)
	tunic  = synth.RGB(0x3C6670)
	stripe = synth.RGB(0xC98B3C)
	shoe   = synth.RGB(0x4A3A30)
	sole   = synth.RGB(0x26201C)
	wall   = synth.RGB(0xD9D6CC)
	board  = synth.RGB(0xF2EFE7)
	floor  = synth.RGB(0xA98E6E)
)

// figure is the dummy: every part painted, dimmed where others stand round it.
func figure(f *body.Form) []synth.Surface {
	everything := geom.NewLocator(f.Mesh())
	d, solids := newFace(f), synth.PartSolids(f)
	var out []synth.Surface
	for _, p := range f.Parts() {
		for i, m := range solids[p] {
			dims, paint := synth.Dims(m, everything, 160), paintOf(p, d, i)
			out = append(out, synth.Surface{Mesh: m, Dim: func(v int) float64 { return dims[v] },
				Paint: func(at r3.Vec) synth.Colour { return paint(p.Frame.Local(at)) }})
		}
	}
	trunk, _ := f.Part(body.Torso, body.Both)
	return append(out, nape(f, solids, everything, paintOf(trunk, d, 0)))
}

// paintOf is what is painted on a part, in its coordinates; the head's solids
// are the skin, the nose and the ears.
func paintOf(p *body.Part, d *face, solid int) func(r3.Vec) synth.Colour {
	low, high := p.Range()
	switch p.Segment {
	case body.Head:
		return [...]func(r3.Vec) synth.Colour{d.paint, d.nosePaint, d.earPaint, d.earPaint}[solid]
	case body.Neck:
		return synth.Plain(skin)
	case body.Torso:
		return torso(low+25, high-25)
	case body.Hand:
		return hand
	case body.Foot:
		return func(at r3.Vec) synth.Colour { return synth.Mix(shoe, sole, edge(at.Z-low-10)) }
	case body.UpperArm:
		return synth.Plain(tunic)
	case body.Forearm:
		return func(at r3.Vec) synth.Colour { return synth.Mix(tunic, stripe, edge(math.Abs(at.Y-low-34)-5)) }
	}
	return synth.Plain(suit)
}

// torso is a tunic with seams, and stripes along the hem and the neckline, which
// lies lower in front.
func torso(hem, top float64) func(r3.Vec) synth.Colour {
	return func(at r3.Vec) synth.Colour {
		c := synth.Mix(tunic, black, .5*edge(math.Abs(math.Abs(at.X)-70)-.8))
		if at.Z > 0 {
			c = synth.Mix(c, black, .6*edge(math.Abs(at.X)-.9))
		}
		c = synth.Mix(c, stripe, edge(at.Y-hem-11))
		neckline := top - 14 - .35*max(0, at.Z)
		c = synth.Mix(c, stripe, edge(neckline-9-at.Y))
		return synth.Mix(c, skin, edge(neckline-at.Y))
	}
}

// hand has lines between the fingers: y runs up from the finger tips, z across
// the palm.
func hand(at r3.Vec) synth.Colour {
	c := skin
	if at.Y < 78 {
		for _, z := range []float64{-20, -2, 15} {
			c = synth.Mix(c, line, .55*edge(math.Abs(at.Z-z)-.7))
		}
	}
	return c
}

// room is a wall 700 mm behind the body, a skirting board and a floor with the
// feet's soft shade. For each picture the wearer turns in it: seen from her, it
// is the room that turns.
func room(yaw float64) []synth.Surface {
	sin, cos := math.Sincos(yaw)
	f := geom.Frame{X: r3.Vec{X: cos, Z: -sin}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: sin, Z: cos}}
	out := level()
	for i, s := range out {
		out[i].Mesh = synth.Moved(s.Mesh, f)
		out[i].Paint = func(p r3.Vec) synth.Colour { return s.Paint(f.Local(p)) }
	}
	return out
}

func level() []synth.Surface {
	const back, far = -700, 6000
	quad := func(a, b, c, d r3.Vec) geom.Mesh {
		return geom.Mesh{V: []r3.Vec{a, b, c, d}, T: [][3]int{{0, 1, 2}, {0, 2, 3}}}
	}
	wallMesh := quad(r3.Vec{X: -far, Z: back}, r3.Vec{X: far, Z: back}, r3.Vec{X: far, Y: 4000, Z: back}, r3.Vec{X: -far, Y: 4000, Z: back})
	floorMesh := quad(r3.Vec{X: -far, Z: far}, r3.Vec{X: far, Z: far}, r3.Vec{X: far, Z: back}, r3.Vec{X: -far, Z: back})
	return []synth.Surface{
		{Mesh: wallMesh, Paint: wallPaint, Glow: true},
		{Mesh: floorMesh, Paint: floorPaint, Glow: true},
	}
}

func wallPaint(p r3.Vec) synth.Colour {
	if p.Y < 90 {
		return synth.Mix(board, line, .25*edge(math.Abs(p.Y-90)-3)+.08)
	}
	return synth.Mix(wall, black, .05*math.Hypot(p.X+500, p.Y-1900)/2000)
}

func floorPaint(p r3.Vec) synth.Colour {
	c := synth.Mix(floor, line, .35*edge(math.Abs(math.Mod(p.X+6000, 140)-70)-1.2))
	return synth.Mix(c, black, .55*bump(math.Hypot(p.X/300, (p.Z-20)/190), 1))
}
