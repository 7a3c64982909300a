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

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
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
// for, or have any.
func (b *builder) saysFewer(p *plan, u units.Unit) {
	l := p.lames
	start, end, _ := p.run()
	least := (b.thickness + slide) / steepestLame
	foam, tooSteep := units.Format(b.thickness, u), l.joints() > 0 && end-start < least
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
	if thin := math.Floor((end-start)/float64(l.asked)*steepestLame - slide); thin >= 1 {
		f.Perhaps = fmt.Sprintf("Foam of %s lets it have %d.", units.Format(thin, u), l.asked)
	}
	b.findings = append(b.findings, f)
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

// lameShells raises the lames, from the innermost outwards: each is kept clear of
// the one that it covers, and the first one of bands, if it covers some. They are
// given from the lower end up. limit gives what a shell goes round that stands
// further out by an amount at each level.
func (p *plan) lameShells(bands *shell, gap float64, limit func(lift func(level float64) float64) *limit) ([]*shell, error) {
	l := p.lames
	out := make([]*shell, l.count)
	var under geom.Mesh
	if l.upperOut && l.below {
		under = bands.outside(gap, l.from)
	} else if !l.upperOut && l.above {
		under = bands.outside(gap, l.to)
	}
	for n := range out {
		i, covering := n, 0
		if !l.upperOut {
			i, covering = len(out)-1-n, 1
		}
		plan, err := p.lame(i, gap)
		if err != nil {
			return nil, err
		}
		if out[i], err = newShell(plan, limit(p.lifted(i, gap))); err == nil {
			out[i], err = out[i].clearOf(under, covering)
		}
		if err != nil {
			return nil, fmt.Errorf("lame %d: %w", i+1, err)
		}
		out[i].lame = i + 1
		under = out[i].outside(gap, covering)
	}
	return out, nil
}

// coverRun keeps the bands clear of the lame that one of them covers.
func (p *plan) coverRun(bands *shell, lames []*shell, gap float64) (*shell, error) {
	switch l := p.lames; {
	case l.upperOut && l.above:
		return bands.clearOf(lames[len(lames)-1].outside(gap, 0), l.to)
	case !l.upperOut && l.below:
		return bands.clearOf(lames[0].outside(gap, 0), l.from)
	}
	return bands, nil
}

// clearOf keeps a shell clear of what one of its rings covers. A band that wraps
// the axis is moved out at that ring alone, so that a run of lames does not grow
// from lame to lame; one that follows its limit goes round both.
func (s *shell) clearOf(m geom.Mesh, ring int) (*shell, error) {
	if len(m.V) == 0 {
		return s, nil
	}
	under := limitOf(m, false)
	for i, b := range s.bands {
		if b.from != ring && b.to != ring {
			continue
		}
		if b.rails != nil {
			s.limit.add(m)
			return newShell(s.plan, s.limit)
		}
		most := 0.0
		own := s.limit
		s.limit = under
		for _, n := range s.needs(s.bands[i]) {
			share := n.t // of what the ring moves
			if b.from == ring {
				share = 1 - n.t
			}
			if share > leastShare {
				most = max(most, n.inside/share)
			}
		}
		s.limit = own
		s.moveOut(ring, most)
	}
	return s, nil
}

// leastShare is how near the ring across a band what it covers counts, as a share
// of the band (detail: lames reach no nearer).
const leastShare = 0.2

// outside are the bands at a ring, moved out by d.
func (s *shell) outside(d float64, ring int) geom.Mesh {
	var m geom.Mesh
	for _, b := range s.bands {
		if b.from != ring && b.to != ring {
			continue
		}
		var lines [][]r3.Vec // from column to column
		if b.rails == nil {
			lower, upper := s.ringPoints(b.from), s.ringPoints(b.to)
			for i := range lower {
				lines = append(lines, []r3.Vec{lower[i], upper[i]})
			}
		}
		for _, rail := range b.rails {
			if rail != nil {
				lines = append(lines, rail)
			}
		}
		m.Append(netOf(lines, !s.open()))
	}
	for i, n := range geom.VertexNormals(m) {
		m.V[i] = r3.Add(m.V[i], r3.Scale(d, n))
	}
	return m
}

func (s *shell) ringPoints(i int) []r3.Vec {
	var out []r3.Vec
	for _, q := range s.line(s.rings[i]) {
		out = append(out, s.rings[i].point(q))
	}
	return out
}

// netOf joins neighbouring lines, each run from below, by triangles that look
// outwards; closed joins the last to the first as well.
func netOf(lines [][]r3.Vec, closed bool) geom.Mesh {
	var m geom.Mesh
	for _, l := range lines {
		m.V = append(m.V, l...)
	}
	n := len(lines)
	if !closed {
		n--
	}
	for i := range n {
		rows, next := len(lines[i]), (i+1)%len(lines)
		for j := range rows - 1 {
			a, b := i*rows+j, next*rows+j
			m.T = append(m.T, [3]int{a, b, b + 1}, [3]int{a, b + 1, a + 1})
		}
	}
	return m
}

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
	b.saysFewer(s.lames, p.Units)
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
		Perhaps: s.lames.wouldCover(r, b.thickness+slide, u)})
}

// wouldCover names an overlap, and a count that the foam allows, that would let the
// run cover through its angle. Both make it stand out more, which is allowed for.
func (p *plan) wouldCover(r, gap float64, u units.Unit) string {
	covers := func(count int, overlap float64) bool {
		try, l := *p, *p.lames
		try.lames, l.count, l.overlap = &l, count, overlap
		return spare*l.opens(r-p.standsOut(gap)+try.standsOut(gap)) <= overlap
	}
	overlap, count := math.Ceil(p.lames.overlap), p.lames.count
	for !covers(p.lames.count, overlap) && overlap < farthest {
		overlap++
	}
	start, end, _ := p.run()
	most := min(mostLames, int((end-start)*steepestLame/gap))
	for !covers(count, p.lames.overlap) && count <= most {
		count++
	}
	said := fmt.Sprintf("Let them lie %s over each other", units.Format(overlap, u))
	if count <= most {
		return said + fmt.Sprintf(", or have %d lames.", count)
	}
	return said + ", or take thinner foam."
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
