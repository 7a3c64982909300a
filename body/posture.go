package body

import "math"

// Posture is how the trunk stands over the hips. The zero value is the default.
//
// Whoever holds the chest back or forward keeps the neck where it is, or would lose
// balance: two standing bodies (male-average and female-average of the README of the
// meshes) have it within 9 mm of the default over the hips, with chests 9 mm behind and
// 12 mm before it. So posture wanes from the shoulders to the nape, and from the chest
// where the shoulders are not known.
type Posture struct {
	ChestForward     float64 // mm that the chest stands further forward over the hips than the default
	WaistForward     float64 // mm that the waist does
	ShouldersForward float64 // mm that the trunk does at the height of the acromia; if ShouldersKnown
	ShouldersKnown   bool    // false: the shoulders stand where the chest takes them
}

// MostForward is farther than any of a posture's places stands from the default, mm.
// Judgement: the worst of four bodies has 34.
const MostForward = 120.0

// MostBent is more than the chest stands farther forward or back over the waist, or the
// shoulders over the chest, than in the default, mm. Judgement: a straight trunk that
// leans by MostForward at the chest has 70 from waist to chest; the most of four bodies is 26.
const MostBent = 80.0

// Possible tells whether a trunk can stand so.
func (p Posture) Possible() bool {
	if !(math.Abs(p.ChestForward) <= MostForward && math.Abs(p.WaistForward) <= MostForward && math.Abs(p.ChestForward-p.WaistForward) <= MostBent) {
		return false
	}
	return !p.ShouldersKnown || math.Abs(p.ShouldersForward) <= MostForward && math.Abs(p.ShouldersForward-p.ChestForward) <= MostBent
}

// forward says how far the middle of each torso station stands in front of the
// hip's, as a share of stature: the mean of two standing bodies, man and woman.
// No girth tells it; Posture moves it.
var forward = struct{ crotch, upperHip, waist, naturalWaist, ribs, chest, armpit, midShoulder, shoulder, slope1, slope2, nape float64 }{
	crotch: .007, upperHip: .01125, waist: .021, naturalWaist: .022, ribs: .0185, chest: .018, armpit: .01225,
	midShoulder: .0005, shoulder: -.00375, slope1: -.005, slope2: .003, nape: .007,
}

// StandsForward is how far the middles of the sections at chest, waist and acromia
// stand in front of that of the hips in the default posture, mm.
func StandsForward(stature float64) (chest, waist, shoulders float64) {
	return forward.chest * stature, forward.waist * stature, forward.shoulder * stature
}

// bowed is how much farther than on a straight line from waist to chest a trunk that
// leans stands from the default between them, for the spine bends. Source: two standing
// bodies that lean by 10 mm, one back and one forward, 1.18 of it at the natural waist
// and 1.23 at the lowest ribs (male-average and female-average of the README of the
// meshes).
const bowed = 1.2

// below is how much further forward than the default a trunk stands between waist
// (0) and chest (1), mm.
func (p Posture) below(t float64) float64 { return bowed * lerp(p.WaistForward, p.ChestForward, t) }

// settled puts shoulders that are not known where the chest takes them.
func (p Posture) settled(h heights) Posture {
	if !p.ShouldersKnown {
		p.ShouldersForward = p.ChestForward * (h.nape - h.shoulder) / (h.nape - h.chest)
		p.ShouldersKnown = true
	}
	return p
}

// above is how much further forward than the default it stands at a level between
// chest and nape, mm.
func (p Posture) above(level float64, h heights) float64 {
	p = p.settled(h)
	if level < h.shoulder {
		return lerp(p.ChestForward, p.ShouldersForward, (level-h.chest)/(h.shoulder-h.chest))
	}
	return p.ShouldersForward * (h.nape - level) / (h.nape - h.shoulder)
}
