package body

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
	"tasset/internal/report"
)

// Places on a face, as shares of the face length F (nose root to chin) above
// the tragions, head level. Judgement after the Swiss soldiers of Flury and
// Riedwyl 1988 (root and ear); base of the nose: 2003 head survey, 0.42 F below.
const (
	noseRoot  = .20
	noseTip   = noseRoot - .36
	noseBase  = noseRoot - .42
	mouthLine = noseRoot - .60
	jawAngle  = noseRoot - .55
	chinPoint = -.68
	menton    = -.80
)

// skullExponent is the profile of the dome over the skull's ring. Source: the
// coronal arcs of 3,994 people in the 2003 head survey are met without bias by
// 2.17 (men) and 2.29 (women, whose sizes include hair).
const skullExponent = 2.2

// face holds the mid-line of a head in head coordinates: y = 0 and z = 0 at the
// tragions.
type face struct {
	length, crown  float64 // face length; ear to crown
	ring           Section // the section that the head girth goes round
	ringZ          float64 // where its widest line stands
	brow           float64 // z of the brow on the mid-line
	ringLevel      float64 // the dome starts here
	browLevel      float64 // the head girth is taken here
	neckZ, neckDip float64 // neck axis: z at y = 0, and z per y
	neck           Section // the neck's section, level, under the jaw
}

// neckAt is where the neck axis stands at a level.
func (f *face) neckAt(y float64) float64 { return f.neckZ + f.neckDip*y }

// newFace reads the head's sizes. The ears stand half a head length (0.505)
// behind the nose root, which is 8 mm behind the brow.
func newFace(s *sizes) (*face, []report.Finding) {
	ring, findings := s.fitted("head girth", "head breadth", "head length", .55)
	length, crown, hl := s.mm("face length", Both), s.mm("ear to crown", Both), ring.Depth()
	f := &face{length: length, crown: crown, ring: ring, brow: .505*hl + 8}
	f.ringZ = f.brow - ring.Front
	f.browLevel = max(.32*crown, noseRoot*length+5)
	f.ringLevel = f.browLevel + .03*crown
	return f, findings
}

// level is one section of the face: its front on the mid-line, its back, its
// breadth, and the z of its widest line.
func (f *face) level(name string, y, front, back, wide, breadth, n float64) knot {
	return knot{name: name, level: y, section: Section{breadth, front - wide, wide - back, n}, z: wide}
}

// knots are the head's sections from under the jaw to the ring: the front
// follows the mid-line profile without the nose, the sides the breadths of
// cheeks and jaw, the back the occiput and the nape. How square the face is from
// the mouth to the nose root was fitted to cuts of two bodies, man and woman
// (male-average and female-average of the meshes' README); cheekbones are widest in
// front of the ears.
func (f *face) knots(s *sizes) []knot {
	cheek, jaw := s.mm("face breadth", Both), s.bySex(121, 112) // jaw: means of the 2003 head survey
	F, hl, occiput := f.length, f.ring.Depth(), f.ringZ-f.ring.Back
	n := f.ring.Exponent
	neck := func(name string, y float64) knot {
		at := f.neckAt(y)
		return f.level(name, y, at+f.neck.Front, at-f.neck.Back, at, f.neck.Breadth, f.neck.Exponent)
	}
	nape := func(y float64) float64 { return f.neckAt(y) - f.neck.Back }
	chin := menton * F
	blend := func(t float64) float64 { return lerp(occiput+.02*hl, nape(chin), t) }
	return []knot{
		neck("nape", chin-20),
		neck("", chin-10),
		f.level("chin", chin, f.brow-16, blend(1), f.neckAt(chin)*.5, lerp(jaw, f.neck.Breadth, .6), 1.8),
		f.level("", chinPoint*F, f.brow-6, blend(.95), f.neckAt(chin)*.3, lerp(jaw, f.neck.Breadth, .3), 1.85),
		f.level("mouth", mouthLine*F, f.brow-5, blend(.75), 0, lerp(cheek, jaw, .85), 2.3),
		f.level("nose base", noseBase*F, f.brow-7, blend(.4), 0, lerp(cheek, jaw, .3), 2.6),
		f.level("ear", 0, f.brow-9, f.brow-9-(.97*hl-4), 20, cheek-3, 2.6),
		f.level("", noseRoot*F, f.brow-8, lerp(occiput, f.brow-.97*hl, .3), f.ringZ/2, lerp(cheek, f.ring.Breadth, .6), lerp(2.6, n, .6)),
		{name: "brow", level: f.browLevel, section: f.ring, z: f.ringZ},
		{level: f.ringLevel, section: f.ring, z: f.ringZ},
	}
}

// newHead builds the head part: face and nape below the brow, a dome above the
// ring, ears and nose standing on it.
func newHead(s *sizes, f *face, frame geom.Frame) *Part {
	p := newPart(Head, Both, frame, newLoft(f.knots(s)))
	p.closeTop(f.ringLevel, f.crown, skullExponent, "crown")
	p.mark("eyes", f.eyeLevel(s))
	p.mark("jaw", jawAngle*f.length)
	p.details = []geom.Mesh{f.nose(s), f.ear(s, p, 1), f.ear(s, p, -1)}
	return p
}

// eyeLevel is the height of the pupils: from the eye to the crown, but never
// out of the sockets, 5 to 20 mm below the nose root.
func (f *face) eyeLevel(s *sizes) float64 {
	root := noseRoot * f.length
	return min(root-5, max(root-20, f.crown-s.mm("eye to crown", Both)))
}

// pupil is the left pupil in head coordinates; the eyeball's front lies about
// 6 mm behind the nose root. Judgement.
func (f *face) pupil(s *sizes) r3.Vec {
	return r3.Vec{X: s.mm("pupil distance", Both) / 2, Y: f.eyeLevel(s), Z: f.brow - 8 - 6}
}

// nose is a closed ridge from the nose root to its base. It protrudes by the
// mean of the 2003 head survey, 20.8 mm (men) and 18.9 mm (women), at its tip.
func (f *face) nose(s *sizes) geom.Mesh {
	root, tip, base := noseRoot*f.length, noseTip*f.length, noseBase*f.length
	out, half, inner := s.bySex(20.8, 18.9), s.bySex(37.8, 35.8)/2, f.brow-22
	profile := newLoft([]knot{
		{level: base - 2, section: Section{2 * half * .7, 19, 6, 2}, z: inner},
		{level: base + 3, section: Section{2 * half, 14 + .85*out, 6, 2}, z: inner},
		{level: tip, section: Section{2 * half * .95, 14 + out, 6, 1.8}, z: inner},
		{level: lerp(tip, root, .55), section: Section{24, 14 + .55*out, 6, 1.8}, z: inner},
		{level: root, section: Section{17, 15, 6, 2}, z: inner},
	})
	var rings [][]r3.Vec
	low, high := profile.ends()
	ends := func(y float64) []r3.Vec { return []r3.Vec{{Y: y, Z: inner + 3}} }
	rings = append(rings, ends(low-1))
	for i := range 21 {
		sec, x, z := profile.at(lerp(low, high, float64(i)/20))
		ring := make([]r3.Vec, 40)
		for k := range ring {
			ring[k] = outline{sec, lerp(low, high, float64(i)/20), x, z}.point(2 * math.Pi * float64(k) / 40)
		}
		rings = append(rings, ring)
	}
	return stitch(append(rings, ends(high+1)))
}

// ear is a flattened ellipsoid that stands off the head as far as the ear does,
// mostly behind the tragion; side is +1 on the left.
func (f *face) ear(s *sizes, head *Part, side float64) geom.Mesh {
	long, broad, off := s.mm("ear length", Both), s.mm("ear breadth", Both), s.mm("ear stand-off", Both)
	skin := head.Point(side*(math.Pi/2+.15), 4).X * side
	const sunk = 4 // mm of the ellipsoid inside the skin, to close the gap
	half := r3.Vec{X: (off + sunk) / 2, Y: long / 2, Z: broad / 2}
	return blob(r3.Vec{X: side * (skin - sunk + half.X), Y: 4, Z: -.35 * broad}, half, 2)
}
