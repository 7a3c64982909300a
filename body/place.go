package body

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// The rest pose: standing, feet a little apart, arms hanging clear of the trunk
// with the palms to the thighs. Angles in degrees; judgement but where said.
const (
	thighLean  = 3.0 // knees out
	shankLean  = 2.0 // ankles out
	shankBack  = 3.0 // ankles behind the knees; standing bodies: 2 to 5
	leastArm   = 4.0 // upper arms out, if the trunk allows
	mostArm    = 40.0
	armGap     = 8.0  // mm between the arm and the trunk
	armpitFold = 50.0 // mm below the armpit that arm and trunk are one
	jointBelow = .11  // the shoulder joint below the acromion, of the upper arm's length
)

func tan(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }

// axisFrame has y from the lower point to the upper, z as nearly forward as
// that allows, x to the wearer's left, and the lower point as origin.
func axisFrame(lower, upper r3.Vec) geom.Frame {
	y := r3.Unit(r3.Sub(upper, lower))
	z := r3.Vec{Z: 1}
	z = r3.Unit(r3.Sub(z, r3.Scale(r3.Dot(z, y), y)))
	return geom.Frame{O: lower, X: r3.Cross(y, z), Y: y, Z: z}
}

// outward is +1 for a left limb and −1 for a right one.
func outward(side Side) float64 {
	if side == Right {
		return -1
	}
	return 1
}

// leg gives one leg's parts and joints. The outer sides of trunk and thighs
// meet at the crotch.
func (b *builder) leg(side Side) {
	s, out := b.sizes, outward(side)
	crotch, _, _ := b.trunk.loft.at(b.trunk.levels.crotch)
	_, _, z := b.trunk.loft.at(b.trunk.levels.crotch)
	z += (crotch.Front - crotch.Back) / 2
	kneeLevel := min(s.mm("knee height", side), b.trunk.levels.crotch-100)
	ankleLevel := min(s.mm("ankle height", side), kneeLevel-100)

	thigh := s.thigh(side)
	top := roundSection(thigh[0].girth, thigh[0].depthPerBreadth, .5, thigh[0].exponent)
	hip := r3.Vec{X: crotch.Breadth/2 - top.Breadth/2, Y: b.trunk.levels.crotch, Z: z}
	knee := r3.Vec{X: hip.X + tan(thighLean)*(hip.Y-kneeLevel), Y: kneeLevel, Z: z}
	ankle := r3.Vec{X: knee.X + tan(shankLean)*(kneeLevel-ankleLevel), Y: ankleLevel, Z: z - tan(shankBack)*(kneeLevel-ankleLevel)}
	hip.X, knee.X, ankle.X = out*hip.X, out*knee.X, out*ankle.X

	b.add(Thigh, side, axisFrame(knee, hip), limbLoft(r3.Norm(r3.Sub(hip, knee)), out, thigh))
	b.add(Shank, side, axisFrame(ankle, knee), limbLoft(r3.Norm(r3.Sub(knee, ankle)), out, s.shank(side)))
	b.foot(side, ankle)

	f := axisFrame(knee, hip)
	up := .03 * s.mm("stature", Both) // the hip joint above the crotch
	b.joint("hip", side, r3.Add(hip, r3.Scale(up, f.Y)), r3.Scale(-1, f.X))
	b.joint("knee", side, knee, f.X)
	b.joint("ankle", side, ankle, r3.Vec{X: -1})
}

// heelToAnkle is how far the ankle stands from the heel, of the foot's length.
// Source: two standing bodies, man and woman, 0.21 and 0.17.
const heelToAnkle = .19

// footKnots are sections of the foot: where, from the heel, of its length; how far
// outside the axis its middle lies and how broad it is, of the foot breadth; how high
// it is, of the ankle height. Toes lie inside the axis, because the great toe is the
// longest. Source: cuts of two standing bodies, man and woman (male-average and
// female-average of the README of the meshes); the heel is left blunter than theirs.
var footKnots = []struct {
	name                              string
	from, outside, b, taken, exponent float64
}{
	{"heel", 0, -.03, .525, 1, 2.3}, {"foot ankle", .27, 0, .72, 1.6, 2.3}, {"", .36, .01, .77, 1.5, 2.1}, {"instep", .45, .02, .835, 1.14, 2.3},
	{"", .60, 0, .97, .79, 2.6}, {"ball", .73, -.03, .99, .57, 2.9}, {"toes", .90, -.11, .765, .385, 2.6}, {"", .95, -.17, .585, .32, 2.4}, {"toe tip", 1, -.22, .3, .2, 2.3},
}

// foot lays the foot along the floor under the ankle.
func (b *builder) foot(side Side, ankle r3.Vec) {
	s := b.sizes
	long, ball, tall := s.mm("foot length", side), s.mm("foot breadth", side), s.mm("ankle height", side)
	var knots []knot
	for _, k := range footKnots {
		sec := split(k.b*ball, k.taken*tall, .75, k.exponent)
		knots = append(knots, knot{name: k.name, level: (1 - k.from) * long, section: sec, x: outward(side) * k.outside * ball, z: sec.Back})
	}
	frame := geom.Frame{O: r3.Vec{X: ankle.X, Z: ankle.Z + (1-heelToAnkle)*long}, X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}
	p := b.add(Foot, side, frame, newLoft(knots))
	p.low, p.high = 0, long
}

// arm gives one arm's parts and joints, straight, turned out at the shoulder
// until it clears the trunk.
func (b *builder) arm(side Side) {
	s, out := b.sizes, outward(side)
	upper, lower, hand := s.mm("upper arm length", side), s.mm("forearm length", side), s.mm("hand length", side)
	la := limbLoft(upper, out, s.upperArm(side))
	lf := limbLoft(lower, out, s.forearm(side))
	deltoid, _, _ := la.at(.68 * upper)
	_, _, z := b.trunk.loft.at(b.trunk.levels.shoulder)
	sec, _, _ := b.trunk.loft.at(b.trunk.levels.shoulder)
	shoulder := r3.Vec{
		X: max(s.mm("bideltoid breadth", Both)/2-deltoid.Breadth/2, .6*b.trunk.shoulder),
		Y: b.trunk.levels.shoulder - jointBelow*upper,
		Z: z + (sec.Front-sec.Back)/2,
	}
	lean := b.armLean(shoulder, la, lf, upper, lower)
	sin, cos := math.Sincos(lean * math.Pi / 180)
	shoulder.X *= out
	y := r3.Vec{X: -out * sin, Y: cos}
	down := func(d float64) geom.Frame {
		o := r3.Sub(shoulder, r3.Scale(d-jointBelow*upper, y))
		return geom.Frame{O: o, X: r3.Vec{X: cos, Y: out * sin}, Y: y, Z: r3.Vec{Z: 1}}
	}
	p := b.add(UpperArm, side, down(upper), la)
	p.closeTop(.68*upper, upper, 2, "shoulder")
	b.add(Forearm, side, down(upper+lower), lf)
	h := b.add(Hand, side, down(upper+lower+hand), s.handLoft(side, hand))
	h.low = 0
	elbow, wrist := down(upper), down(upper+lower)
	b.joint("shoulder", side, shoulder, r3.Vec{X: -1})
	b.joint("elbow", side, elbow.O, r3.Scale(-1, elbow.X))
	b.joint("wrist", side, wrist.O, r3.Scale(-out, wrist.Z))
}

// armLean is the least angle, in half degrees, at which the arm clears the
// trunk everywhere below the armpit's fold.
func (b *builder) armLean(shoulder r3.Vec, la, lf *loft, upper, lower float64) float64 {
	clears := func(lean float64) bool {
		cos := math.Cos(lean * math.Pi / 180)
		for d := 0.0; d <= upper+lower; d += 20 { // down the arm from the acromion
			y := shoulder.Y - (d-jointBelow*upper)*cos
			if y > b.trunk.levels.armpit-armpitFold || y < b.trunk.levels.crotch {
				continue
			}
			sec, _, _ := la.at(upper - d)
			if d > upper {
				sec, _, _ = lf.at(upper + lower - d)
			}
			body, _, _ := b.trunk.loft.at(y)
			inner := shoulder.X + (shoulder.Y-y)*tan(lean) - sec.Breadth/2/cos
			if inner < body.Breadth/2+armGap {
				return false
			}
		}
		return true
	}
	lean := leastArm
	for lean < mostArm && !clears(lean) {
		lean += .5
	}
	return lean
}

// handLoft is the hand from the finger tips (y = 0) to the wrist, without the
// thumb but with its root, thin from side to side as the palm is turned to the
// thigh. Judgement, but for the thumb's root and the thickness of the palm: cuts of
// two bodies, man and woman (male-average and female-average of the meshes' README).
func (s *sizes) handLoft(side Side, long float64) *loft {
	broad := s.mm("hand breadth", side)
	const palm = .61 // of the hand's length: the survey's means, 117 and 193 mm
	wrist := roundSection(s.mm("wrist girth", side), 1.28, .5, 2.1)
	knots := []knot{{name: "wrist", level: long, section: wrist}}
	for _, k := range []struct {
		name                  string
		down, b, thick, front float64
	}{{"", .115, .95, .54, .59}, {"mid palm", .5 * palm, .96, .45, .52}, {"knuckles", .95 * palm, 1, .37, .5}, {"fingers", .88, .62, .20, .5}, {"finger tips", 1, .25, .10, .5}} {
		sec := split(k.thick*broad, k.b*broad, k.front, 2.2)
		knots = append(knots, knot{name: k.name, level: (1 - k.down) * long, section: sec})
	}
	return newLoft(knots)
}

// neckHigh is how far up the neck axis from its base the neck girth is taken.
const neckHigh = 50 // mm

// neckAxis is the neck's frame: it starts a quarter of the neck's radius behind
// the middle between the back and front neck points and leans forward, 18°
// (men) or 12° (women) on the bodies that were cut.
func (b *builder) neckAxis() geom.Frame {
	s := b.sizes
	r := s.mm("neck girth", Both) / (2 * math.Pi)
	nape := b.trunk.levels.nape
	front := min(s.mm("front neck height", Both), nape-20)
	sec, _, z := b.trunk.loft.at(lerp(b.trunk.levels.shoulder, nape, .7))
	middle := r3.Vec{Y: (nape + front) / 2, Z: z + (sec.Front-sec.Back)/2 + neckForward*s.mm("stature", Both)}
	sin, cos := math.Sincos(s.bySex(18, 12) * math.Pi / 180)
	f := geom.Frame{X: r3.Vec{X: 1}, Y: r3.Vec{Y: cos, Z: sin}, Z: r3.Vec{Y: -sin, Z: cos}}
	f.O = r3.Sub(middle, r3.Scale(.25*r, f.Z))
	return f
}

// neckForward is where the middle of the neck base stands in front of the
// shoulder slope below it, and earForward where the tragions stand in
// front of the neck axis at their level, as shares of stature. Read off two
// standing bodies, man and woman.
const (
	neckForward = .0065
	earForward  = -.010
)

// neckAndHead stands the neck on the torso and the head on the neck.
func (b *builder) neckAndHead() {
	s, g := b.sizes, b.sizes.mm("neck girth", Both)
	frame := b.neckAxis()
	base := s.mm("neck base girth", Both)
	neck := func(girth float64) Section { return roundSection(girth, 1, .5, 2) }
	l := newLoft([]knot{
		{name: "neck base", level: 0, section: neck(.97 * max(base, g))},
		{name: "neck", level: neckHigh, section: neck(g)},
		{name: "neck top", level: neckHigh + 14, section: neck(1.02 * g)},
	})
	p := b.add(Neck, Both, frame, l)
	p.high += 20

	ear := s.mm("stature", Both) - b.face.crown
	lean := frame.Y.Z / frame.Y.Y
	axis := frame.O.Z + (ear-frame.O.Y)*lean
	head := geom.Identity()
	head.O = r3.Vec{Y: ear, Z: axis + earForward*s.mm("stature", Both)}
	level := neck(1.02 * g) // cut level, a leaning neck is deeper
	level.Front, level.Back = level.Front/frame.Y.Y, level.Back/frame.Y.Y
	b.face.neck, b.face.neckZ, b.face.neckDip = level, axis-head.O.Z, lean
	b.parts = append(b.parts, newHead(s, b.face, head))
	b.joint("neck", Both, r3.Add(frame.O, r3.Scale(neckHigh, frame.Y)), r3.Vec{Y: 1})
}
