package pattern

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// plan is a template with every formula evaluated for one body: what the shell
// is built from. Angles are radians from forward, levels mm along the axis.
type plan struct {
	rings     []ringPlan
	bands     []bandPlan
	capped    string   // "", "point", "dome" or "plate" at the last ring
	domes     [2]*dome // at the last and the first ring; nil: none
	apex      *float64 // level of the point; nil: where the limit ends
	base      bool     // a plate at the first ring as well
	gap       *gapPlan
	lames     *lamePlan // a run of lames; nil: none
	span      *[2]float64
	mirror    bool                                    // rings are their own mirror images
	paired    bool                                    // panels that are each other's mirror image share a template
	spine     *spine                                  // the axis, where it is a curve; nil: straight
	aboutAxis bool                                    // angles are counted about the axis, not about each ring's middle
	ends      bool                                    // the shell is its own mirror image end for end
	names     [2]string                               // of the plates at the last and the first ring
	fold      func(angle float64, band string) string // kind of the fold at a corner or crease
	strain    strainLimits                            // of formed panels; none: not limited
	turned    bool                                    // its levels run against those of the template
}

type ringPlan struct {
	name    string
	at      template.Formula // where it says how high it lies
	level   float64
	section float64 // level at which the body's section is taken
	ridges  []ridge
	corners []float64
	scaled  *scaled // nil: it is no ring of a dome
	drawn   *figure // nil: it takes the body's outline
}

type bandPlan struct {
	name     string
	from, to int // rings
	along    bool
	formed   bool
	pointed  bool   // its upper end is the cap's point
	crest    *crest // the line that it runs to from its ring; nil: none
	seams    []float64
	counted  counted // zero: they are listed
	id       int     // number of the band in the template
	panels   []string
}

type gapPlan struct{ at, width, lap float64 }

// plan evaluates the template's rings, bands and the rest.
func (b *builder) plan() (plan, error) {
	t := b.template
	p := plan{mirror: t.Mirror, paired: t.Mirror, names: [2]string{"top plate", "base plate"}}
	e := evaluator{env: b.env}
	names := b.ringsAndBands(&e, &p)
	p.lames = e.lames(t.Lames, names)
	e.ends(t, &p)
	p.fold, p.strain = e.foldRule(t.Folds), b.material.strainLimits()
	b.adjustLength(&p)
	if t.Frame.Axis == "across" {
		p.turnAcross()
	}
	for _, d := range b.dropped {
		p.drop(d)
	}
	top, base := e.crest(t.Cap, false), e.crest(t.Base, true)
	for _, step := range []func() error{
		func() error { return p.closeOnCrests(top, base) },
		p.cornersOfPoints,
		p.check,
		func() error { return p.foldsAt(&e, t.Folds) },
		func() error { return b.settleLames(&p) },
	} {
		if e.err == nil {
			e.err = step()
		}
	}
	return p, e.err
}

// ringsAndBands evaluates both, and gives the rings' numbers by name.
func (b *builder) ringsAndBands(e *evaluator, p *plan) map[string]int {
	t, names := b.template, map[string]int{}
	for _, r := range t.Rings {
		if !e.on(r.When) {
			continue
		}
		names[r.Name] = len(p.rings)
		p.rings = append(p.rings, b.ring(e, r))
	}
	for i, bd := range t.Bands {
		if !e.on(bd.When) {
			continue
		}
		band := e.band(bd, names)
		band.id = i
		band.counted.setting = settingOf(t, bd.Seams.Count)
		if n := b.counts[i]; n > 0 {
			band.seams = band.counted.seams(n, t.Mirror)
		}
		p.bands = append(p.bands, band)
		if over := p.besides(band); e.err == nil && over != "" {
			e.err = fmt.Errorf("%s:%d: band %q lies where band %q does; let one begin at the ring where the other ends", t.File, bd.Line, band.name, over)
		}
	}
	return names
}

// settleLames fits the run of lames between the bands, if there is one.
func (b *builder) settleLames(p *plan) error {
	if p.lames == nil {
		return nil
	}
	if err := p.meetLames(); err != nil {
		return err
	}
	p.fewerLames(b.thickness + slide)
	return nil
}

// besides is the name of a band before the last one that shares its place; "" if
// there is none.
func (p *plan) besides(last bandPlan) string {
	for _, b := range p.bands[:len(p.bands)-1] {
		if b.from < last.to && last.from < b.to {
			return b.name
		}
	}
	return ""
}

// settingOf is the name of the setting that a formula is; "" if it is none.
func settingOf(t *template.Template, f template.Formula) string {
	for _, s := range t.Settings {
		if s.Ident == f.String() {
			return s.Name
		}
	}
	return ""
}

// adjustLength makes the piece longer or shorter after a fitting: at its open
// rim if it is closed at the top, else half at either rim.
func (b *builder) adjustLength(p *plan) {
	v, ok := b.order.Adjust["length"]
	if !ok || len(p.rings) == 0 {
		return
	}
	first, last := &p.rings[0], &p.rings[len(p.rings)-1]
	longer := v.Number
	if v.Percent {
		longer *= last.level - first.level
	}
	if p.capped != "" {
		first.lift(-longer)
		return
	}
	first.lift(-longer / 2)
	last.lift(longer / 2)
}

// lift moves a ring along the axis, and takes its outline from there.
func (r *ringPlan) lift(by float64) {
	r.level, r.section = r.level+by, r.section+by
}

// evaluator keeps the first error, so that formulas can be read in a row.
type evaluator struct {
	env template.Env
	err error
}

func (e *evaluator) num(f template.Formula) float64 {
	if e.err != nil {
		return 0
	}
	var v float64
	v, e.err = f.Eval(e.env)
	return v
}

// wrong is an error about a value, with the place of its formula.
func wrong(f template.Formula, format string, args ...any) error {
	said := fmt.Sprintf(format, args...)
	if f.Where() == "" {
		return errors.New(said)
	}
	return fmt.Errorf("%s: %s", f.Where(), said)
}

// mostSeams is how many seams a band may have round: more than any piece needs.
const mostSeams = 60

// mostCounted is how many panels a band may have round where its template
// sets no most (common practice, no source: more are a chore to glue).
const mostCounted = 24

// whole is a count from 1 to most.
func (e *evaluator) whole(f template.Formula, what string, most int) int {
	v := e.num(f)
	if e.err == nil && math.Abs(v-math.Round(v)) > sameAngle {
		e.err = wrong(f, "the number of %s is %g; it must be a whole number (round, floor and ceil make one)", what, v)
	}
	v = math.Round(v)
	if e.err == nil && !(v >= 1 && v <= float64(most)) {
		e.err = wrong(f, "the number of %s is %.10g; it can be from 1 to %d", what, v, most)
	}
	if e.err != nil {
		return 1
	}
	return int(v)
}

// size is a length that is not negative and at most what a shell may stand off.
func (e *evaluator) size(f template.Formula, what string) float64 { return e.within(f, what, 0) }

// within is a length from low to what a shell may stand off.
func (e *evaluator) within(f template.Formula, what string, low float64) float64 {
	v := e.num(f)
	if e.err == nil && !(v >= low && v <= farthest) {
		e.err = wrong(f, "the %s is %.4g mm; it can be from %g to %g mm", what, v, low, farthest)
	}
	return v
}

func (e *evaluator) on(c template.Condition) bool {
	if e.err != nil {
		return false
	}
	var on bool
	on, e.err = c.On(e.env)
	return on
}

func (b *builder) ring(e *evaluator, r template.Ring) ringPlan {
	out := ringPlan{name: r.Name, at: r.At, level: e.num(r.At)}
	out.section = out.level
	if r.Section.Set() {
		out.section = e.num(r.Section)
	}
	for _, c := range r.Creases {
		out.ridges = append(out.ridges, ridge{turn(e.num(c.At)), e.within(c.Rise, "rise of a crease in ring "+r.Name, -farthest)})
	}
	for _, c := range r.Corners {
		out.corners = append(out.corners, e.num(c))
	}
	if out.drawn = e.figure(r); out.drawn == nil || !out.drawn.points {
		out.corners = sortedTurns(out.corners)
	}
	return out
}

func (e *evaluator) band(bd template.Band, names map[string]int) bandPlan {
	out := bandPlan{name: bd.Name, from: names[bd.From], to: names[bd.To], along: bd.Bend == "along", formed: bd.Bend == "formed", panels: bd.Seams.Names}
	if out.name == "" {
		out.name = "panel"
	}
	for _, a := range bd.Seams.At {
		out.seams = append(out.seams, e.num(a))
	}
	if bd.Seams.Count.Set() {
		out.counted = counted{count: e.whole(bd.Seams.Count, "seams of "+out.name, mostSeams), start: e.num(bd.Seams.Start)}
		out.seams = out.counted.seams(out.counted.count, false)
		if bd.Seams.Within.Set() {
			out.counted.within = e.size(bd.Seams.Within, "deviation of "+out.name)
		}
		if out.counted.most = max(out.counted.count, mostCounted); bd.Seams.Most.Set() {
			out.counted.most = e.whole(bd.Seams.Most, "seams of "+out.name+" at most", mostSeams)
		}
	}
	return out
}

func (e *evaluator) ends(t *template.Template, p *plan) {
	if t.Cap != nil && e.on(t.Cap.When) {
		p.capped = t.Cap.Kind
		if t.Cap.At.Set() {
			at := e.num(t.Cap.At)
			p.apex = &at
		}
		if t.Cap.Name != "" {
			p.names[0] = t.Cap.Name
		}
	}
	p.domes = [2]*dome{e.dome(t.Cap), e.dome(t.Base)}
	if t.Base != nil && e.on(t.Base.When) {
		p.base = t.Base.Kind == "plate" || t.Base.Kind == "dome"
		if t.Base.Name != "" {
			p.names[1] = t.Base.Name
		}
	}
	if t.Gap != nil && e.on(t.Gap.When) {
		p.gap = &gapPlan{at: turn(e.num(t.Gap.At)), width: e.size(t.Gap.Width, "gap"), lap: e.size(t.Gap.Lap, "lap")}
	}
	if t.Span != nil {
		p.span = &[2]float64{e.num(t.Span.From), e.num(t.Span.To)}
		if wide := units.Deg(p.span[1] - p.span[0]); e.err == nil && !(wide > 0 && wide < 360) {
			e.err = wrong(t.Span.To, "the span goes through %.0f°; it must be more than 0 and less than a whole turn (leave span out for that)", wide)
		}
	}
}

func (e *evaluator) foldRule(rules []template.FoldRule) func(float64, string) string {
	type rule struct {
		at    float64
		kind  string
		bands []string
	}
	var known []rule
	for _, r := range rules {
		if e.on(r.When) {
			known = append(known, rule{turn(e.num(r.At)), r.Kind, r.Bands})
		}
	}
	return func(angle float64, band string) string {
		for _, r := range known {
			if math.Abs(r.at-angle) < sameAngle && (len(r.bands) == 0 || contains(r.bands, band)) {
				return r.kind
			}
		}
		return "grooved inside"
	}
}

// foldsAt holds the rules of folds to corners and creases that there are.
func (p *plan) foldsAt(e *evaluator, rules []template.FoldRule) error {
	var there []float64
	for _, r := range p.rings {
		there = append(there, r.corners...)
		for _, c := range r.ridges {
			there = append(there, c.angle)
		}
	}
	for _, r := range rules {
		if !e.on(r.When) {
			continue
		}
		at := e.num(r.At)
		same := func(a float64) bool { return math.Abs(math.Remainder(a-at, 2*math.Pi)) < sameAngle }
		if e.err == nil && !slices.ContainsFunc(there, same) {
			return wrong(r.At, "no ring has a corner or a crease at %.4g° to fold; %s", units.Deg(at), anglesSaid(there))
		}
	}
	return e.err
}

// anglesSaid lists the angles of corners and creases.
func anglesSaid(there []float64) string {
	var said []string
	for _, a := range sortedTurns(there) {
		if s := fmt.Sprintf("%.4g°", units.Deg(a)); !contains(said, s) {
			said = append(said, s)
		}
	}
	if len(said) == 0 {
		return "give the rings creases or corners, or leave the fold out"
	}
	return "there are some at " + strings.Join(said, ", ")
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// turnAcross writes a plan's levels along the shell's axis, which runs to the
// wearer's right while the language counts to the left.
func (p *plan) turnAcross() {
	p.turned = !p.turned
	n := len(p.rings)
	for i := range p.rings {
		p.rings[i].level, p.rings[i].section = -p.rings[i].level, -p.rings[i].section
	}
	for i := 0; i < n/2; i++ {
		p.rings[i], p.rings[n-1-i] = p.rings[n-1-i], p.rings[i]
	}
	for i := range p.bands {
		b := &p.bands[i]
		b.from, b.to = n-1-b.to, n-1-b.from
	}
	for i := 0; i < len(p.bands)/2; i++ {
		p.bands[i], p.bands[len(p.bands)-1-i] = p.bands[len(p.bands)-1-i], p.bands[i]
	}
	top := p.capped == "plate" || p.capped == "dome"
	p.domes[0], p.domes[1] = p.domes[1].turned(), p.domes[0].turned()
	p.capped = ""
	if p.base {
		p.capped = "plate"
	}
	p.base = top
	p.names[0], p.names[1] = p.names[1], p.names[0]
	if l := p.lames; l != nil {
		l.from, l.to, l.upperOut = n-1-l.to, n-1-l.from, !l.upperOut
	}
}

func (p *plan) check() error {
	if len(p.rings) < 2 && p.capped != "point" && p.capped != "dome" && p.capped != "ridge" {
		return fmt.Errorf("a shell needs two rings, and %d are left with these settings", len(p.rings))
	}
	if len(p.bands) == 0 && p.lames == nil {
		return fmt.Errorf("no band is left with these settings")
	}
	if err := p.checkCorners(); err != nil {
		return err
	}
	for i := 1; i < len(p.rings); i++ {
		if p.rings[i].level <= p.rings[i-1].level+geom.Detail {
			return wrong(p.rings[i].at, "ring %q lies at %.1f mm, not above ring %q at %.1f mm, with this body and these settings", p.rings[i].name, p.rings[i].level, p.rings[i-1].name, p.rings[i-1].level)
		}
	}
	return nil
}

// checkCorners holds all rings to the same corners; a smooth drawn ring may
// stand between rings that have some.
func (p *plan) checkCorners() error {
	var first *ringPlan
	for i := range p.rings {
		r := &p.rings[i]
		if r.drawn != nil && len(r.corners) == 0 {
			continue
		}
		if first == nil {
			first = r
		}
		if len(r.corners) != len(first.corners) {
			return fmt.Errorf("ring %q has %d corners and ring %q has %d; all rings of a piece have the same corners", r.name, len(r.corners), first.name, len(first.corners))
		}
	}
	return nil
}

// cornerAngles are those of the rings that have corners.
func (p *plan) cornerAngles() []float64 {
	for _, r := range p.rings {
		if len(r.corners) > 0 {
			return r.corners
		}
	}
	return nil
}
