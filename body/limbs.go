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
// a half ellipsoid closes it (see cap).
func (s *sizes) upperArm(side Side) []limbKnot {
	b := relaxedUpperArm * s.mm("upper arm girth flexed", side)
	return []limbKnot{
		{"deltoid", .32, 1.08 * b, 1.03, 0, 0, .65, 1.95},
		{"biceps", .55, b, 1.07, -.03, -.03, .65, 1.95},
		{"", .75, .947 * b, 1.13, -.04, -.07, .6, 1.95},
		{"", .88, .875 * b, 1.05, -.04, -.13, .5, 1.9},
		{"elbow", 1, s.elbow(side), 1.10, 0, -.03, .43, 1.85},
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
		{"elbow", 0, s.elbow(side), 1.10, 0, -.03, .43, 1.85},
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
		{"", .18, .985 * t, 1.00, 0, .13, .55, 1.95},
		{"mid thigh", .40, .66*t + .38*l, 1.04, 0, .17, .55, 1.95},
		{"", .65, .36*t + .65*l, 1.10, -.03, .16, .55, 1.9},
		{"lower thigh", .86, l, 1.08, -.05, .16, .57, 1.9},
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
// and outside the line between the joints; a straight axis would be 10 mm wrong.
func (s *sizes) shank(side Side) []limbKnot {
	c, a := s.mm("calf girth", side), s.mm("ankle girth", side)
	return []limbKnot{
		{"knee", 0, s.knee(side), 1.11, 0, 0, .6, 1.8},
		{"below knee", .12, .95 * c, 1.05, .13, -.28, .53, 1.85},
		{"calf", .28, c, 1.05, .16, -.38, .5, 1.9},
		{"mid shank", .45, .93 * c, 1.01, .10, -.35, .5, 1.95},
		{"lower shank", .62, .60*c + .28*a, 1.10, .10, -.26, .5, 2.0},
		{"ankle", .84, a, 1.35, 0, 0, .5, 2.1},
	}
}
