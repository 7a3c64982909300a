package photo

import (
	"context"
	"fmt"
	"math"

	"tasset/internal/report"
)

// suspect is a ruler with the length that the other pictures give it.
type suspect struct {
	shot     int
	odds     float64 // deviations that its length is off
	told, sd float64 // mm
}

// givesWay is by how many deviations a ruler's depth and tilt must have given
// way before it is asked whether its length is right.
const givesWay = 1.5

// doubtRulers names the ruler that contradicts the others most, if any does, and
// rulers that are held at a slant.
func (s *Subject) doubtRulers(ctx context.Context) []report.Finding {
	var first, second suspect
	for i, v := range s.model.views {
		if s.Shots[i].Ruler == nil || s.odds(v, &v.sticks[0]) < givesWay {
			continue
		}
		told, sd, ok := s.told(ctx, i)
		q := suspect{i, math.Abs(told-s.Shots[i].Ruler.Length) / sd, told, sd}
		if ok && q.odds > first.odds {
			first, second = q, first
		} else if ok && q.odds > second.odds {
			second = q
		}
	}
	var out []report.Finding
	if first.odds > wrongRuler {
		out = append(out, s.contradiction(first, second))
	}
	for i, v := range s.model.views {
		if s.Shots[i].Ruler != nil && (first.odds <= wrongRuler || i != first.shot) {
			out = append(out, s.doubtTilt(i, &v.sticks[0])...)
		}
	}
	return out
}

func (s *Subject) contradiction(first, second suspect) report.Finding {
	shot := s.Shots[first.shot]
	r := shot.Ruler
	g := report.Problemf("ruler in "+shot.Name, "It is said to be %.0f mm between its marks, but by the other pictures it is %.0f mm ± %.0f.", r.Length, first.told, 1.96*first.sd)
	g.Where = r.Where
	if first.odds < surelyOff {
		g.Level = report.Doubt
	}
	rival := second.shot
	others := s.scales(first.shot)
	if len(others) == 1 {
		rival = others[0]
	}
	if len(others) == 1 || second.odds > .9*first.odds { // two scales, and nothing says which
		g.Said = fmt.Sprintf("It and the scale in %s contradict each other: if the other is right, this one is %.0f mm ± %.0f between its marks, not %.0f.", s.Shots[rival].Name, first.told, 1.96*first.sd, r.Length)
	}
	g.Perhaps = "Read the two marked figures again"
	if usual := usualLength(first.told, 2.5*first.sd); usual != "" {
		g.Perhaps += "; it may be " + usual
	}
	g.Perhaps += ". Or the ruler was much nearer to the camera, or further from it, than the middle of the " + s.model.fig.name + "."
	return g
}

// scales are the shots with a ruler or a card, but for one.
func (s *Subject) scales(but int) []int {
	var out []int
	for i, q := range s.Shots {
		if i != but && (q.Ruler != nil || q.Card != nil) {
			out = append(out, i)
		}
	}
	return out
}

// usualLength is the length that people have rulers of, or mark on them, that is
// nearest to one, if it is within a doubt.
func usualLength(mm, doubt float64) string {
	best, name := doubt, ""
	for _, l := range []float64{50, 100, 150, 200, 250, 300, 400, 500, 600, 1000} {
		if d := math.Abs(l - mm); d < best {
			best, name = d, fmt.Sprintf("%.0f mm", l)
		}
	}
	for _, l := range []float64{2, 4, 6, 8, 10, 12, 18, 24, 36} {
		if d := math.Abs(l*25.4 - mm); d < best-1 {
			best, name = d, fmt.Sprintf("%.0f in (%.0f mm)", l, l*25.4)
		}
	}
	return name
}

func (s *Subject) doubtTilt(i int, k *stick) []report.Finding {
	tilt := s.best.x[k.at+4]
	if math.Abs(tilt) < tiltMost {
		return nil
	}
	shot := s.Shots[i]
	g := report.Doubtf("ruler in "+shot.Name, "It seems to be held at a slant of %.0f° towards the camera, so that it looks %.0f mm too short; that is taken into account, but is not sure.", math.Abs(tilt)*180/math.Pi, shot.Ruler.Length*(1-math.Cos(tilt)))
	g.Where = shot.Ruler.Where
	g.Perhaps = "Hold the ruler square to the camera; under 3° costs nothing."
	return []report.Finding{g}
}
