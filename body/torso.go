package body

import (
	"math"

	"tasset/internal/report"
)

// trunk is what the torso's stations are made of, and what neck, arms and legs
// stand on. Levels are heights above the floor; z = 0 is the middle of the hip
// section, x = 0 the mid-plane.
type trunk struct {
	loft     *loft
	levels   heights
	shoulder float64 // half the breadth between the acromia
}

// heights are the trunk's levels, put in order from below.
type heights struct{ crotch, hip, waist, chest, armpit, shoulder, nape float64 }

// heights reads the levels and forces their order with the least gaps that a
// trunk has: in the survey a hip can lie below the crotch (by 29 mm) and an
// armpit below the chest (25 mm), because two landmarks were found apart.
func (s *sizes) heights() heights {
	at := func(n Name) float64 { return s.mm(n, Both) }
	h := heights{crotch: at("crotch height")}
	h.hip = max(at("hip height"), h.crotch+15)
	h.waist = max(at("waist height"), h.hip+60)
	h.chest = max(at("chest height"), h.waist+60)
	h.armpit = max(at("armpit height"), h.chest+15)
	h.shoulder = max(at("shoulder height"), h.armpit+40)
	h.nape = max(at("back neck height"), h.shoulder+25)
	return h
}

// newTrunk builds the torso's stations. The ratios are those of surveyed people
// where the survey has them; stations between its levels follow cuts of four
// standing bodies, and the natural waist the regression of naturalWaist. The armpit,
// over the shoulder blades, and what slopes from the shoulders into the neck were read
// again off two of the four, a man and a woman (male-average and female-average of the
// README of the meshes).
func newTrunk(s *sizes, p Posture) (*trunk, []report.Finding) {
	h, stature := s.heights(), s.mm("stature", Both)
	hip, f1 := s.fitted("hip girth", "hip breadth", "hip depth", .38)
	waist, f2 := s.fitted("waist girth", "waist breadth", "waist depth", s.bySex(.53, .76))
	chest, f3 := s.chest(s.bustSplit())
	bi := s.mm("shoulder breadth", Both)
	part := func(b, d, front, n float64) Section { return split(b, d, front, n) }

	var knots []knot
	add := func(name string, level float64, sec Section, share, moved float64) {
		middle := share*stature + moved
		knots = append(knots, knot{name: name, level: level, section: sec, z: middle - (sec.Front-sec.Back)/2})
	}
	above := func(name string, level float64, sec Section, share float64) {
		add(name, level, sec, share, p.above(level, h))
	}
	span, top, slope := h.chest-h.waist, h.shoulder-h.armpit, h.nape-h.shoulder
	wb, wd, cb, cd := waist.Breadth, waist.Depth(), chest.Breadth, chest.Depth()
	t := s.bySex(.30, .38)
	add("crotch", h.crotch, part(1.05*hip.Breadth, .90*hip.Depth(), .40, 2.8), forward.crotch, 0)
	add("hip", h.hip, hip, 0, 0)
	add("upper hip", (h.hip+h.waist)/2, part(.98*(hip.Breadth+wb)/2, 1.04*(hip.Depth()+wd)/2, s.bySex(.50, .54), 2.35), forward.upperHip, p.WaistForward/2)
	add("waist", h.waist, waist, forward.waist, p.WaistForward)
	add("natural waist", h.waist+t*span, part(lerp(wb, cb, t), lerp(wd, cd, t), s.bySex(.47, .68), 2.4).withGirth(s.naturalWaist()),
		forward.naturalWaist, p.below(t))
	add("underbust", h.waist+.72*span, s.ribs(waist, chest), forward.ribs, p.below(.72))
	add("chest", h.chest, chest, forward.chest, p.ChestForward)
	above("armpit", h.armpit, part(1.05*cb, s.bySex(.985, .935)*cd, .52, s.bySex(3.6, 3.3)), forward.armpit)
	above("mid shoulder", h.shoulder-.45*top, part(.98*bi, s.bySex(.88, .81)*cd, .45, 4), forward.midShoulder)
	above("shoulder", h.shoulder, part(bi, s.bySex(.69, .64)*cd, s.bySex(.45, .43), 3.6), forward.shoulder)
	above("lower shoulder slope", h.shoulder+.35*slope, part(s.bySex(.95, .86)*bi, s.bySex(.62, .53)*cd, s.bySex(.56, .72), 1.85), forward.slope1)
	above("shoulder slope", h.shoulder+.70*slope, part(s.bySex(.65, .46)*bi, s.bySex(.545, .47)*cd, s.bySex(.67, .80), 1.8), forward.slope2)
	neck := s.mm("neck girth", Both) / math.Pi
	above("", h.nape, part(s.bySex(1.36, 1.20)*neck, s.bySex(1.02, 1.04)*neck, s.bySex(.68, .76), 1.9), forward.nape)
	return &trunk{newLoft(knots), h, bi / 2}, append(append(f1, f2...), f3...)
}

// naturalWaist is the girth at the natural waist, where a belt settles: the
// measured one, or the regression on navel and chest girths. Source: a fit to
// the 507 adults of Heinz et al., J. Statistics Education 11 (2), 2003, residual
// SD 40 mm for men and 34 mm for women.
func (s *sizes) naturalWaist() float64 {
	if g, ok := s.measured("natural waist girth", Both); ok {
		return g
	}
	w, c := s.mm("waist girth", Both), s.mm("chest girth", Both)
	return s.bySex(.768, .363)*w + s.bySex(.171, .459)*c
}

// ribs is the section over the lowest ribs, a woman's underbust.
func (s *sizes) ribs(waist, chest Section) Section {
	sec := split(s.bySex(.97, .92)*lerp(waist.Breadth, chest.Breadth, .72),
		s.bySex(.965, .885)*lerp(waist.Depth(), chest.Depth(), .72), s.bySex(.50, .68), s.bySex(2.7, 2.5))
	if g, ok := s.measured("underbust girth", Both); ok {
		return sec.withGirth(g)
	}
	return sec
}

// bustSplit is the share of the chest's depth in front of its widest line. A
// heavy woman's chest stands further forward: .70 on the one heavy body that
// was cut. Between a body-mass index of 27 and 35 it is blended; judgement.
func (s *sizes) bustSplit() float64 {
	stature := s.mm("stature", Both) / 1000
	heavy := (s.mm("weight", Both)/(stature*stature) - 27) / (35 - 27)
	return .55 + s.bySex(0, .15)*math.Min(1, math.Max(0, heavy))
}

// lerp is the straight line from a at 0 to b at 1.
func lerp(a, b, t float64) float64 { return a + t*(b-a) }
