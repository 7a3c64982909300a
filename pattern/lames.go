package pattern

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

// lamePlan is a run of lames with its formulas evaluated.
type lamePlan struct {
	name             string
	from, to         int // rings
	count, asked     int // made, and asked for
	overlap, through float64
	upperOut, pivot  bool
	band             bandPlan // of each: how it bends, its seams
	below, above     bool     // a band of the template goes on there
}

// slide is what neighbouring lames are kept apart by beside their foam, mm, so
// that one slides over the other (common practice, no source).
const slide = 1.0

// mostLames is how many lames a run may have: more than any piece needs.
const mostLames = 30

// mostThrough is how far a run may bend as a whole: a finger into a fist.
const mostThrough = 1.5 * math.Pi

func (e *evaluator) lames(l *template.Lames, names map[string]int) *lamePlan {
	if l == nil || !e.on(l.When) {
		return nil
	}
	out := &lamePlan{name: l.Name, from: names[l.From], to: names[l.To], count: e.whole(l.Count, "lames", mostLames),
		overlap: e.size(l.Overlap, "overlap of the lames"), through: e.num(l.Through), upperOut: l.UpperOut, pivot: l.Pivot}
	if out.name == "" {
		out.name = "lame"
	}
	out.asked = out.count
	out.band = e.band(template.Band{Name: out.name, From: l.From, To: l.To, Bend: l.Bend, Seams: l.Seams}, names)
	if e.err == nil && !(out.through >= 0 && out.through <= mostThrough) {
		e.err = wrong(l.Through, "the lames are to bend through %.0f°; they can through 0 to %.0f°", units.Deg(out.through), units.Deg(mostThrough))
	}
	return out
}

// meetLames notes where bands of the template go on beyond the run.
func (p *plan) meetLames() error {
	l := p.lames
	if l.to <= l.from {
		return fmt.Errorf("no lames are left between ring %q and ring %q with these settings", p.rings[l.from].name, p.rings[l.to].name)
	}
	for _, b := range p.bands {
		l.below, l.above = l.below || b.to == l.from, l.above || b.from == l.to
		if b.from < l.to && b.to > l.from {
			return fmt.Errorf("band %q lies where the lames do, between ring %q and ring %q", b.name, p.rings[l.from].name, p.rings[l.to].name)
		}
	}
	return nil
}

// narrowestLame is the least that shows of a lame, mm: narrower strips of foam
// can hardly be cut and joined (common practice, no source).
const narrowestLame = 6.0

// run is where the visible edges of the lames lie: from the first to the last,
// pitch apart. Where a band goes on beyond the lame that lies outermost there,
// that lame reaches over it.
func (p *plan) run() (start, end, pitch float64) {
	l := p.lames
	start, end = p.rings[l.from].level, p.rings[l.to].level
	if l.upperOut && l.below {
		start -= l.overlap
	}
	if !l.upperOut && l.above {
		end += l.overlap
	}
	return start, end, (end - start) / float64(l.count)
}

// steepestLame is how far apart neighbouring lames may lie, as a share of what
// shows of each: the sine of their slope to the run. Steeper ones stand out like
// the scales of a cone, and each pushes the next further out (judgement: up to
// here a run in thicker foam grows by little more than the foam).
const steepestLame = 0.5

// fewerLames makes a run of no more lames than foam can lie over each other: gap
// is how far apart neighbours lie.
func (p *plan) fewerLames(gap float64) {
	start, end, _ := p.run()
	p.lames.count = max(min(p.lames.asked, int((end-start)*steepestLame/gap)), 1)
}

// saysFewer says that the foam does not let a run have the lames that are asked
// for, or have any; fewer are told on the piece's page, too.
func (b *builder) saysFewer(of *Piece, p *plan) {
	l, u := p.lames, of.Units
	start, end, _ := p.run()
	least := (b.thickness + slide) / steepestLame
	foam, tooSteep := units.FormatFoam(b.thickness, u), l.joints() > 0 && end-start < least
	if l.count == l.asked && !tooSteep {
		return
	}
	f := report.Finding{Level: report.Note, Subject: b.order.Name, Where: b.order.Where,
		Said: fmt.Sprintf("it has %d lames and not %d: foam of %s lies over the next lame only where each shows at least %s, and the run is %s long.", l.count, l.asked, foam, units.Format(least, u), units.Format(end-start, u))}
	if l.count == 1 {
		f.Said = strings.Replace(f.Said, "1 lames", "1 lame", 1)
	}
	if tooSteep {
		f.Level = report.Doubt
		f.Said = fmt.Sprintf("foam of %s is too thick for its lames: each must show at least %s to lie over the next, and the run is only %s long.", foam, units.Format(least, u), units.Format(end-start, u))
	}
	if thin := units.FoamDown((end-start)/float64(l.asked)*steepestLame-slide, u); thin >= 1 {
		f.Perhaps = fmt.Sprintf("Foam of %s lets it have %d.", units.FormatFoam(thin, u), l.asked)
	}
	b.findings = append(b.findings, f)
	if l.count != l.asked {
		of.Notes = append(of.Notes, strings.TrimSpace(strings.ToUpper(f.Said[:1])+f.Said[1:]+" "+f.Perhaps))
	}
}

// reach is from where to where lame i goes, counted from 0 at the lower end.
func (p *plan) reach(i int) (low, high float64) {
	l := p.lames
	start, _, pitch := p.run()
	low, high = start+float64(i)*pitch, start+float64(i+1)*pitch
	if l.upperOut && (i < l.count-1 || l.above) {
		high += l.overlap
	}
	if !l.upperOut && (i > 0 || l.below) {
		low -= l.overlap
	}
	return low, high
}

// lifted is how far surface i of a run stands outside the plain shell at a
// level: nothing at its covered rim, and everywhere one gap outside the surface
// that it covers, so that lames lie parallel and the run does not grow. Surface
// -1 is the band below, surface count the one above.
func (p *plan) lifted(i int, gap float64) func(level float64) float64 {
	start, _, pitch := p.run()
	gap /= math.Sqrt(1 - min(gap*gap/(pitch*pitch), steepest)) // they lie apart square to their slope, whose sine is gap/pitch
	edge := start + float64(i)*pitch                           // its lower visible edge
	if p.lames.upperOut {
		covered := edge + pitch + p.lames.overlap
		return func(level float64) float64 { return gap * max((covered-level)/pitch, -1) }
	}
	covered := edge - p.lames.overlap
	return func(level float64) float64 { return gap * max((level-covered)/pitch, -1) }
}

// liftedBands is how far the template's own bands stand outside the plain shell:
// one that covers a run's last lame makes room for it.
func (p *plan) liftedBands(gap float64) func(level float64) float64 {
	l := p.lames
	none := func(float64) float64 { return 0 }
	if l == nil {
		return none
	}
	low, high := p.rings[l.from].level, p.rings[l.to].level
	middle := (low + high) / 2 // where no band is
	switch {
	case l.upperOut && l.above:
		lift := p.lifted(l.count, gap)
		return func(level float64) float64 {
			if level < middle {
				return 0
			}
			return max(lift(max(level, high)), 0)
		}
	case !l.upperOut && l.below:
		lift := p.lifted(-1, gap)
		return func(level float64) float64 {
			if level > middle {
				return 0
			}
			return max(lift(min(level, low)), 0)
		}
	}
	return none
}

// steepest is the square of the sine of the steepest slope of a lame to its run.
const steepest = 0.5

// lame is the plan of lame i, a shell of its own between its two rims.
func (p *plan) lame(i int, gap float64) (plan, error) {
	out := *p
	out.lames, out.ends, out.capped, out.apex, out.base = nil, false, "", nil, false
	low, high := p.reach(i)
	out.rings = nil
	for _, level := range []float64{low, high} {
		r, err := p.ringAt(level, p.lifted(i, gap))
		if err != nil {
			return out, err
		}
		out.rings = append(out.rings, r)
	}
	if i == 0 {
		out.rings[0].name = p.rings[p.lames.from].name
	}
	if i == p.lames.count-1 {
		out.rings[1].name = p.rings[p.lames.to].name
	}
	b := p.lames.band
	b.from, b.to = 0, 1
	b.name = fmt.Sprintf("%s %d", p.lames.name, i+1)
	b.panels = nil
	for _, name := range p.lames.band.panels {
		b.panels = append(b.panels, b.name+" "+name)
	}
	if len(b.panels) == 0 && len(b.seams) > 1 {
		b.name += ", panel"
	}
	out.bands = []bandPlan{b}
	return out, nil
}

// ringAt is a ring between the run's rings, by what stands at theirs.
func (p *plan) ringAt(level float64, lift func(float64) float64) (ringPlan, error) {
	i := p.lames.from
	for i+1 < p.lames.to && p.rings[i+1].level <= level {
		i++
	}
	a, b := p.rings[i], p.rings[i+1]
	t := (level - a.level) / (b.level - a.level)
	out := a
	out.name, out.level, out.section = fmt.Sprintf("%s to %s", a.name, b.name), level, mix(a.section, b.section, t)
	out.ridges, out.corners = nil, nil
	t = clamp01(t)
	for j, r := range a.ridges {
		out.ridges = append(out.ridges, ridge{r.angle, mix(r.rise, b.ridges[j].rise, t)})
	}
	for j, c := range a.corners {
		out.corners = append(out.corners, mix(c, b.corners[j], t))
	}
	if a.drawn == nil && b.drawn == nil {
		return out, nil
	}
	if a.drawn == nil || b.drawn == nil || len(a.drawn.line) != len(b.drawn.line) {
		return out, fmt.Errorf("the lames between ring %q and ring %q have rings of two kinds; draw both by size, or both by as many points, or neither", a.name, b.name)
	}
	f := *a.drawn
	f.line = make([]r2.Vec, len(a.drawn.line))
	for j, q := range a.drawn.line {
		f.line[j] = geom.Lerp(q, b.drawn.line[j], t)
	}
	f.line = geom.OffsetRing(f.line, lift(level))
	out.drawn = &f
	return out, nil
}

func mix(a, b, t float64) float64 { return a + t*(b-a) }

func clamp01(t float64) float64 { return min(max(t, 0), 1) }
