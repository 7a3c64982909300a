package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// opens is how far each gap between neighbours of a run opens on its outer line,
// at a distance r from the axis that the run bends about, when it bends as a
// whole by its angle.
//
// Each of the run's joints turns by an equal share of it, about the middle of
// the overlap: there the two rims come apart by 2·r·tan(share/2), and of many
// lames all together by r·angle, as much longer as the arc grows. (Derived here.)
func (l *lamePlan) opens(r float64) float64 {
	share := l.through / float64(max(l.joints(), 1))
	return 2 * r * math.Tan(min(share, mostShare)/2)
}

// mostShare is how far one joint of a run may turn; more is no run of lames
// (judgement).
const mostShare = 120 * math.Pi / 180

// joints is how many places there are where one lies over the next.
func (l *lamePlan) joints() int {
	n := l.count - 1
	if l.below {
		n++
	}
	if l.above {
		n++
	}
	return n
}

// farthestReach is how far a run's lames reach from the middle of what they go
// round.
func farthestReach(lames []*shell) float64 {
	most := 0.0
	for _, s := range lames {
		for i := range s.rings {
			line, plan := s.line(s.rings[i]), s.plan.rings[i]
			round := s.limit.at(plan.section)
			if plan.drawn != nil {
				round = plan.drawn.line
			}
			middle := geom.Centroid(round)
			for _, q := range line {
				most = max(most, geom.Dist(q, middle))
			}
		}
	}
	return most
}

// cover holds a run of lames to the angle that it must bend through.
func (b *builder) cover(p *Piece, s *shape) {
	if s.lames == nil {
		return
	}
	l := s.lames.lames
	p.Through, p.Overlap = l.through, l.overlap
	b.saysFewer(p, s.lames)
	name := settingOf(b.template, b.template.Lames.Count)
	if i := slices.IndexFunc(p.Settings, func(of Setting) bool { return of.Name == name }); i >= 0 {
		p.Settings[i].Value = float64(l.count)
		if l.count != l.asked {
			p.Settings[i].Asked = float64(l.asked)
		}
	}
	_, _, pitch := s.lames.run()
	if pitch < narrowestLame {
		b.doubtf("its %d lames show %s each; less than %s can hardly be cut and joined. Ask for fewer lames, or for a longer run.", l.count, units.FormatFine(pitch, p.Units), units.Format(narrowestLame, p.Units))
	}
	r := farthestReach(s.shells[len(s.shells)-l.count:])
	opens := l.opens(r)
	if opens <= l.overlap {
		return
	}
	u := p.Units
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
		Said: fmt.Sprintf("its lames leave a gap when they bend by %.0f° together: each rim moves %s on the outer line, %s from the middle (arithmetic), and they lie %s over each other.",
			units.Deg(l.through), units.Format(opens, u), units.Format(r, u), units.Format(l.overlap, u)),
		Perhaps: b.wouldCover(s.lames, r, u)})
}

// wouldCover names what lets the run cover through its angle: an overlap, a count that
// the foam allows, or the angle through which it does cover; each where the template has
// a setting for it. More of the first two makes the run stand out more, which is allowed for.
func (b *builder) wouldCover(p *plan, r float64, u units.Unit) string {
	gap := b.thickness + slide
	covers := func(count int, overlap, through float64) bool {
		try, l := *p, *p.lames
		try.lames, l.count, l.overlap, l.through = &l, count, overlap, through
		return spare*l.opens(r-p.standsOut(gap)+try.standsOut(gap)) <= overlap
	}
	is, lames := p.lames, b.template.Lames
	overlap, count, degrees := math.Ceil(is.overlap), is.count, math.Floor(units.Deg(is.through))
	for !covers(is.count, overlap, is.through) && overlap < farthest {
		overlap++
	}
	start, end, _ := p.run()
	most := min(mostLames, int((end-start)*steepestLame/gap))
	for !covers(count, is.overlap, is.through) && count <= most {
		count++
	}
	for !covers(is.count, is.overlap, units.Rad(degrees)) && degrees > 0 {
		degrees--
	}
	var ways []string
	if s := b.settingFor(lames.Overlap, overlap); s != "" {
		ways = append(ways, fmt.Sprintf("%s to %s", s, units.Format(overlap, u)))
	}
	if s := b.settingFor(lames.Count, float64(count)); s != "" && count <= most {
		ways = append(ways, fmt.Sprintf("%s to %d", s, count))
	}
	if s := b.settingFor(lames.Through, units.Rad(degrees)); s != "" {
		ways = append(ways, fmt.Sprintf("%s to the %.0f° through which they cover", s, degrees))
	}
	if len(ways) == 0 {
		return "Take thinner foam, or bend less far."
	}
	return "Set " + strings.Join(ways, ", or ") + "."
}

// settingFor is the name of the setting that a formula is, if it can have the value.
func (b *builder) settingFor(f template.Formula, value float64) string {
	name := settingOf(b.template, f)
	for _, s := range b.template.Settings {
		if s.Name == name && s.Min <= value && value <= s.Max {
			return name
		}
	}
	return ""
}

// spare is for what the body under a lame's rim changes when the rim moves
// (judgement).
const spare = 1.03

// standsOut is how far a lame's covering rim stands further out than its covered
// one.
func (p *plan) standsOut(gap float64) float64 {
	low, high := p.reach(0)
	lift := p.lifted(0, gap)
	return math.Abs(lift(low) - lift(high))
}
