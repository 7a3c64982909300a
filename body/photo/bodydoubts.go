package photo

import (
	"fmt"
	"math"

	"tasset/internal/report"
)

// Limits on how a body stands before the camera. Judgement.
const (
	leastGap = 20.0               // mm between wrist and hip: with less, a hand may cover the outline
	mostArm  = 20 * math.Pi / 180 // arms held out further lift the shoulder muscles
)

// doubtBody looks at what only whole bodies can have wrong.
func (s *Subject) doubtBody() []report.Finding {
	var out []report.Finding
	for _, q := range s.Shots {
		out = append(out, s.doubtFrame(&q)...)
	}
	for _, side := range []string{"left ", "right "} {
		out = append(out, s.doubtArm(side)...)
	}
	g := report.Notef("body photographs", "The deviations of body sizes hold 5 to 12 mm for tight clothes, breath and stance (rule of thumb). Loose clothes and shoes add more: heights count from the soles.")
	g.Perhaps = "Where a template hangs on a size, check it with a tape."
	return append(out, g)
}

// doubtFrame asks for head and feet.
func (s *Subject) doubtFrame(q *Shot) []report.Finding {
	marked := func(names ...string) bool {
		for _, n := range names {
			if q.find(n) >= 0 {
				return true
			}
		}
		return false
	}
	var g report.Finding
	what := "it is"
	switch crown, floor := marked("crown"), marked(soles...); {
	case crown && floor:
		return nil
	case floor:
		g = q.doubt("The crown is not marked, so stature is not read off it.")
	case crown:
		g, what = q.doubt("The toes are not marked, so no height is read off it."), "they are"
	default:
		g, what = q.doubt("Neither crown nor toes are marked, so no height is read off it."), "they are"
	}
	g.Perhaps = "Mark what is missing."
	if q.F35 > 0 {
		g.Perhaps = fmt.Sprintf("Mark what is missing; if %s out of the frame, a standing person needs %.1f m to the camera with this lens.",
			what, math.Ceil(DistanceFor(WholeBody, q.F35, q.Width, q.Height)/100)/10)
	}
	return []report.Finding{g}
}

// doubtArm asks whether a hand hides the hip, or an arm is held out far.
func (s *Subject) doubtArm(side string) []report.Finding {
	wrist, ok := s.Point(side + "wrist")
	shot, m := s.markIn(BodyFront, side+"wrist")
	if !ok || shot == nil {
		return nil
	}
	var out []report.Finding
	subject := side + "arm in " + shot.Name
	if hip, ok := s.Point(side + "hip side"); ok && math.Abs(wrist.At.X) < math.Abs(hip.At.X)+leastGap {
		g := report.Doubtf(subject, "The wrist hangs close to the hip, so the hand may cover the outline that was marked as the hip or the waist.")
		g.Where, g.Perhaps = m.Where, "Hold the hands a hand's breadth away from the thighs."
		out = append(out, g)
	}
	if lean, ok := s.armLean(side); ok && lean > mostArm {
		g := report.Notef(subject, "It is held out by %.0f°, which lifts the muscles of the shoulder; the breadth over both upper arms is not read off.", lean*180/math.Pi)
		g.Where, g.Perhaps = m.Where, "Let the arms hang, hands a hand's breadth away from the thighs."
		out = append(out, g)
	}
	return out
}

// markIn is a landmark's mark in a shot of a view; nil if there is none.
func (s *Subject) markIn(v View, name string) (*Shot, *Mark) {
	for i := range s.Shots {
		q := &s.Shots[i]
		if k := q.find(name); q.View == v && k >= 0 {
			return q, &q.Marks[k]
		}
	}
	return nil, nil
}

// armLean is the angle of an arm against the upright, seen from the front.
func (s *Subject) armLean(side string) (float64, bool) {
	wrist, ok := s.Point(side + "wrist")
	edge, ok2 := s.Point(side + "shoulder edge")
	if !ok || !ok2 || !s.shows(BodyFront) {
		return 0, false
	}
	return math.Atan2(math.Abs(wrist.At.X)-math.Abs(edge.At.X), edge.At.Y-wrist.At.Y), true
}
