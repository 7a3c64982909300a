package photo

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"tasset/internal/report"
)

// suspect is a ruler or card with its size by everything else.
type suspect struct {
	shot       int
	card       bool
	odds       float64 // deviations that its size is off
	factor, sd float64 // of its size
	without    *Subject
}

// givesWay is by how many deviations a ruler's depth and tilt must have given
// way before it is asked whether its length is right.
const givesWay = 1.5

// suspects are the rulers and cards that everything else contradicts: of more than
// two, the one first without which the rest fits best; of two, the unlikelier.
func (s *Subject) suspects(ctx context.Context) []suspect {
	var all []suspect
	for i, v := range s.model.views {
		for k := range v.sticks {
			if q, ok := s.suspect(ctx, i, &v.sticks[k]); ok && q.odds > wrongRuler {
				all = append(all, q)
			}
		}
	}
	rest := func(q suspect) float64 { return q.without.best.cost }
	if len(s.sticks()) < 3 {
		rest = func(q suspect) float64 { return -q.odds }
	}
	slices.SortStableFunc(all, func(p, q suspect) int { return cmp.Compare(rest(p), rest(q)) })
	return all
}

// suspect asks everything else for the size of a ruler or card whose place had to
// give way.
func (s *Subject) suspect(ctx context.Context, shot int, k *stick) (suspect, bool) {
	if s.odds(s.model.views[shot], k) < givesWay {
		return suspect{}, false
	}
	return s.told(ctx, shot, k.card())
}

// doubtTilts names rulers and cards that are held at a slant, but for one that is
// told of already.
func (s *Subject) doubtTilts(told *suspect) (out []report.Finding) {
	for i, v := range s.model.views {
		for k := range v.sticks {
			if q := &v.sticks[k]; told == nil || told.shot != i || told.card != q.card() {
				out = append(out, s.doubtTilt(i, q)...)
			}
		}
	}
	return out
}

// contradiction tells of the first of suspects.
func (s *Subject) contradiction(all []suspect) report.Finding {
	var g report.Finding
	if all[0].card {
		g = s.wrongCard(all[0])
	} else {
		g = s.wrongLength(all[0])
	}
	if all[0].odds < surelyOff {
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

func (s *Subject) wrongLength(first suspect) report.Finding {
	shot := s.Shots[first.shot]
	r := shot.Ruler
	told, half := r.Length*first.factor, 1.96*r.Length*first.sd
	g := report.Problemf("ruler in "+shot.Name, "It is said to be %.0f mm between its marks, but by the other pictures it is %.0f mm ± %.0f.", r.Length, told, half)
	g.Where = r.Where
	if rival := s.rival(first); rival != "" { // two scales, and nothing says which
		g.Said = fmt.Sprintf("It and %s contradict each other: if the other is right, this one is %.0f mm ± %.0f between its marks, not %.0f. All sizes are taken as unsure enough for either to be right.", rival, told, half, r.Length)
	}
	g.Perhaps = "Read the two marked figures again"
	if usual := usualLength(told, 1.3*half); usual != "" {
		g.Perhaps += "; it may be " + usual
	}
	g.Perhaps += ". Or the ruler was much nearer to the camera, or further from it, than the middle of the " + s.model.fig.name + "."
	return g
}

// rival names the only other ruler or card; "" if there are several.
func (s *Subject) rival(but suspect) string {
	if len(s.sticks()) > 2 {
		return ""
	}
	for i, v := range s.model.views {
		for k := range v.sticks {
			if card := v.sticks[k].card(); i != but.shot || card != but.card {
				return map[bool]string{true: "the card in ", false: "the ruler in "}[card] + s.Shots[i].Name
			}
		}
	}
	return ""
}

// usualLength names the lengths that people have rulers of, or mark on them, in
// mm and in inches, that are nearest to one, if they are within a doubt.
func usualLength(mm, doubt float64) string {
	nearest := func(unit float64, format string, lengths ...float64) string {
		best, name := doubt, ""
		for _, l := range lengths {
			if d := math.Abs(l*unit - mm); d < best {
				best, name = d, fmt.Sprintf(format, l, l*unit)
			}
		}
		return name
	}
	names := nearest(1, "%.0[1]f mm", 50, 100, 150, 200, 250, 300, 400, 500, 600, 1000)
	if in := nearest(25.4, "%.0f in (%.0f mm)", 2, 4, 6, 8, 10, 12, 18, 24, 36); names != "" && in != "" {
		names += " or " + in
	} else {
		names += in
	}
	return names
}

func (s *Subject) doubtTilt(i int, k *stick) []report.Finding {
	shot, most := s.Shots[i], tiltMost
	tilt, what, where := math.Abs(s.best.x[k.at+4]), "ruler", ""
	if k.card() {
		tilt = math.Acos(math.Cos(s.best.x[k.at+3]) * math.Cos(s.best.x[k.at+4]))
		what, where, most = "card", shot.Card.Where, cardMost
	} else {
		where = shot.Ruler.Where
	}
	if tilt < most {
		return nil
	}
	g := report.Doubtf(what+" in "+shot.Name, "It seems to be held at a slant of %.0f° towards the camera, so that it looks up to %.0f %% too short; that is taken into account, but is not sure.", tilt*180/math.Pi, 100*(1-math.Cos(tilt)))
	g.Where = where
	g.Perhaps = "Hold the ruler square to the camera; under 3° costs nothing."
	if k.card() {
		g.Perhaps = "Hold the card square to the camera. If it was, look at its corner marks, and measure both sides of the printed card."
	}
	return []report.Finding{g}
}
