package photo

import (
	"context"
	"fmt"
	"math"

	"tasset/internal/report"
)

// suspect is a ruler or card with its size by everything else.
type suspect struct {
	shot       int
	card       bool
	odds       float64 // deviations that its size is off
	factor, sd float64 // of its size
}

// givesWay is by how many deviations a ruler's depth and tilt must have given
// way before it is asked whether its length is right.
const givesWay = 1.5

// doubtRulers names the ruler or card that contradicts the others most, if any
// does, and rulers that are held at a slant.
func (s *Subject) doubtRulers(ctx context.Context) []report.Finding {
	var first, second suspect
	for i, v := range s.model.views {
		for k := range v.sticks {
			q, ok := s.suspect(ctx, i, &v.sticks[k])
			if ok && q.odds > first.odds {
				first, second = q, first
			} else if ok && q.odds > second.odds {
				second = q
			}
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

// suspect asks everything else for the size of a ruler or card whose place had to
// give way.
func (s *Subject) suspect(ctx context.Context, shot int, k *stick) (suspect, bool) {
	if s.odds(s.model.views[shot], k) < givesWay {
		return suspect{}, false
	}
	factor, sd, ok := s.told(ctx, shot, k.card())
	return suspect{shot, k.card(), math.Abs(factor-1) / sd, factor, sd}, ok
}

func (s *Subject) contradiction(first, second suspect) report.Finding {
	var g report.Finding
	if first.card {
		g = s.wrongCard(first)
	} else {
		g = s.wrongLength(first, second)
	}
	if first.odds < surelyOff {
		g.Level = report.Doubt
	}
	return g
}

func (s *Subject) wrongCard(q suspect) report.Finding {
	shot := s.Shots[q.shot]
	g := report.Problemf("card in "+shot.Name, "Its corner marks are %.0f × %.0f mm apart if it was printed at true size, but by the other rulers and cards it is %.0f × %.0f mm (± %.0f %%).",
		CardWidth, CardHeight, CardWidth*q.factor, CardHeight*q.factor, 196*q.sd)
	g.Where = shot.Card.Where
	g.Perhaps = "Lay a ruler on the printed card; print it at 100 %, without fitting it to the page. Or it was held much nearer to the camera, or further from it, than the middle of the " + s.model.fig.name + "."
	return g
}

func (s *Subject) wrongLength(first, second suspect) report.Finding {
	shot := s.Shots[first.shot]
	r := shot.Ruler
	told, half := r.Length*first.factor, 1.96*r.Length*first.sd
	g := report.Problemf("ruler in "+shot.Name, "It is said to be %.0f mm between its marks, but by the other pictures it is %.0f mm ± %.0f.", r.Length, told, half)
	g.Where = r.Where
	rival := second.shot
	others := s.scales(first.shot)
	if len(others) == 1 {
		rival = others[0]
	}
	if len(others) == 1 || second.odds > .9*first.odds { // two scales, and nothing says which
		g.Said = fmt.Sprintf("It and the scale in %s contradict each other: if the other is right, this one is %.0f mm ± %.0f between its marks, not %.0f.", s.Shots[rival].Name, told, half, r.Length)
	}
	g.Perhaps = "Read the two marked figures again"
	if usual := usualLength(told, 1.3*half); usual != "" {
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
