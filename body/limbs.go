package body

import "math"

// limbKnot places one section along a limb: the share of the limb's length
// from its upper joint, girth, depth for breadth, where its middle stands
// outside (x) and in front (z) of the axis in radii, the split and exponent.
type limbKnot struct {
	name             string
	down, girth      float64
	depthPerBreadth  float64
	outside, forward float64
	front, exponent  float64
}

// limbLoft is a limb's surface in its part's coordinates: y is 0 at the lower
// joint and length at the upper one. outward is +1 on the left, −1 on the right.
func limbLoft(length, outward float64, ks []limbKnot) *loft {
	var knots []knot
	for _, k := range ks {
		sec := roundSection(k.girth, k.depthPerBreadth, k.front, k.exponent)
		r := k.girth / (2 * math.Pi)
		middle := k.forward * r
		knots = append(knots, knot{
			name: k.name, level: (1 - k.down) * length, section: sec,
			x: outward * k.outside * r, z: middle - (sec.Front-sec.Back)/2,
		})
	}
	return newLoft(knots)
}

// Shares of the flexed girths, which the survey took, that hanging arms have.
// Judgement, no source; arms at the flexed girth would weigh 1 % of the body
// too much.
const (
	relaxedUpperArm = .93
	relaxedForearm  = .95
)

// upperArm goes from the elbow (y = 0) to the acromion; above .32 of its length
// a half ellipsoid closes it (see cap). Source of the shares: cuts of two standing
// bodies, man and woman (male-average and female-average of the meshes' README).
func (s *sizes) upperArm(side Side) []limbKnot {
	b := relaxedUpperArm * s.mm("upper arm girth flexed", side)
	return []limbKnot{
		{"deltoid", .32, 1.14 * b, 1.07, 0, -.02, .6, 1.95},
		{"", .43, 1.09 * b, 1.11, -.01, -.08, .6, 1.95},
		{"biceps", .55, b, 1.08, -.02, -.11, .62, 1.95},
		{"", .75, .935 * b, 1.17, -.05, -.13, .6, 1.95},
		{"", .88, .875 * b, 1.09, -.05, -.12, .5, 1.9},
		{"elbow", 1, s.elbow(side), 1.13, 0, 0, .43, 1.85},
	}
}

// elbow is the girth over the straight elbow.
func (s *sizes) elbow(side Side) float64 {
	if g, ok := s.measured("elbow girth", side); ok {
		return g
	}
	return .42*relaxedUpperArm*s.mm("upper arm girth flexed", side) + .50*relaxedForearm*s.mm("forearm girth flexed", side)
}

// forearm goes from the wrist bone (y = 0) to the elbow, the palm turned to the
// thigh: the wrist is deeper than broad.
func (s *sizes) forearm(side Side) []limbKnot {
	f := relaxedForearm * s.mm("forearm girth flexed", side)
	w := s.mm("wrist girth", side)
	return []limbKnot{
		{"elbow", 0, s.elbow(side), 1.13, 0, 0, .43, 1.85},
		{"forearm", .22, f, .95, -.02, -.04, .42, 1.9},
		{"mid forearm", .5, .60*f + .45*w, .99, 0, -.15, .42, 2.0},
		{"lower forearm", .75, .30*f + .66*w, 1.12, .03, -.08, .53, 2.1},
		{"wrist", .95, w, 1.28, 0, 0, .6, 2.1},
	}
}

// thigh goes from the knee (y = 0) to the crotch.
func (s *sizes) thigh(side Side) []limbKnot {
	t, l := s.mm("thigh girth", side), s.mm("lower thigh girth", side)
	return []limbKnot{
		{"thigh top", 0, t, 1.06, 0, 0, .5, 1.95},
		{"", .18, .97 * t, 1.00, 0, .13, .55, 1.95},
		{"mid thigh", .40, .66*t + .38*l, 1.04, 0, .17, .55, 1.95},
		{"", .65, .34*t + .64*l, 1.09, -.03, .18, .55, 1.9},
		{"lower thigh", .86, l, 1.08, -.05, .22, .57, 1.9},
		{"knee", 1, s.knee(side), 1.11, 0, 0, .6, 1.8},
	}
}

// knee is the girth over the middle of the knee cap.
func (s *sizes) knee(side Side) float64 {
	if g, ok := s.measured("knee girth", side); ok {
		return g
	}
	return .60*s.mm("calf girth", side) + .32*s.mm("lower thigh girth", side)
}

// shank goes from the ankle bone (y = 0) to the knee. The calf stands behind
// and outside the line between the joints, a woman's further than a man's; a
// straight axis would be 10 mm wrong. Source of the shares: cuts of two standing
// bodies, man and woman (male-average and female-average of the meshes' README):
// what differs by sex may be one body's and not the sex's.
func (s *sizes) shank(side Side) []limbKnot {
	c, a := s.mm("calf girth", side), s.mm("ankle girth", side)
	return []limbKnot{
		{"knee", 0, s.knee(side), 1.11, 0, 0, .6, 1.8},
		{"below knee", .12, .965 * c, s.bySex(1.09, .95), s.bySex(.08, .14), s.bySex(-.17, -.33), .53, 1.85},
		{"calf", .28, c, s.bySex(.99, 1.03), s.bySex(.05, .20), s.bySex(-.23, -.41), .5, 1.9},
		{"mid shank", .45, .905 * c, s.bySex(.99, 1.06), s.bySex(.02, .18), s.bySex(-.22, -.42), .5, 1.95},
		{"lower shank", .62, .57*c + .26*a, s.bySex(1.08, 1.14), s.bySex(.01, .18), s.bySex(-.16, -.36), .5, 2.0},
		{"", .74, .25*c + .69*a, s.bySex(1.24, 1.18), s.bySex(0, .15), s.bySex(-.12, -.27), .5, 2.05},
		{"ankle", .84, a, s.bySex(1.45, 1.27), s.bySex(0, .05), s.bySex(-.05, -.10), .5, 2.1},
		{"", .92, s.bySex(1.05, 1.06) * a, s.bySex(1.65, 1.55), -.03, .09, .5, 2.0},
	}
}
