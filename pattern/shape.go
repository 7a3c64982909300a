package pattern

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// shape is a piece's shell and what is cut out of it.
type shape struct {
	shell          *shell
	pieceFromShell geom.Frame
	cuts           []cutout
	lap            float64
}

// shape evaluates the template and raises the shell, moved out by extra.
func (b *builder) shape(extra float64) (*shape, error) {
	p, err := b.plan()
	if err != nil {
		return nil, err
	}
	out := &shape{pieceFromShell: geom.Identity()}
	ringEase, err := b.ringEase()
	if err != nil {
		return nil, err
	}
	neutral := b.k*b.thickness + extra
	outset := func(n, at r3.Vec) float64 {
		return b.clear(n, at) + ringEase(n, at.Y) + neutral
	}
	upright := b.template.Frame.Axis != "across"
	mirror := b.template.Mirror
	lim := newLimit(b.around, outset, mirror)
	if b.template.Draw == "down" {
		floor, _ := b.part.Range()
		if upright {
			floor = p.rings[0].level
		}
		lim.rememberAbove(floor)
	}
	if !upright {
		out.pieceFromShell = acrossFrame
		low, _ := b.part.Range()
		lim = lim.across(low)
		p.ends, p.mirror = mirror, false
	}
	if p.gap != nil {
		out.lap = p.gap.lap
	}
	if p.capped == "plate" && upright { // a plate stands above all that it covers
		top := &p.rings[len(p.rings)-1]
		top.level = max(top.level, lim.high)
	}
	if out.shell, err = newShell(p, lim); err != nil {
		return nil, err
	}
	out.cuts, err = b.cutouts()
	return out, err
}

// worn is the body part with what is worn on it, in piece axes; a head comes
// with its neck, which a helmet's rim goes round. A right limb is
// built as the mirror image of a left one, so that the language's outer side is
// always +x.
func (b *builder) worn() geom.Mesh {
	var m geom.Mesh // the form keeps its own meshes, so they are copied
	m.Append(b.part.Worn())
	if neck, ok := b.form.Part(body.Neck, body.Both); ok && b.part.Segment == body.Head {
		first := len(m.V)
		m.Append(neck.Worn())
		for i, v := range m.V[first:] {
			m.V[first+i] = b.part.Frame.Local(neck.Frame.Point(v))
		}
	}
	if b.side != body.Right {
		return m
	}
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: make([][3]int, len(m.T))}
	for i, v := range m.V {
		out.V[i] = r3.Vec{X: -v.X, Y: v.Y, Z: v.Z}
	}
	for i, t := range m.T {
		out.T[i] = [3]int{t[0], t[2], t[1]}
	}
	return out
}

// acrossFrame has its axis from the wearer's left to the right, forward as
// forward, and up where an upright shell has the wearer's left: angle 0 is
// forward and 90° is up.
var acrossFrame = geom.Frame{X: r3.Vec{Y: 1}, Y: r3.Vec{X: -1}, Z: r3.Vec{Z: 1}}

// slab (detail): spacing of the rings and angles by which an upright limit is
// rebuilt as a closed surface, to be sliced across.
const (
	slabLevel = 3.0
	slabAngle = 2.0 * math.Pi / 180
)

// across is the same limit for a shell whose axis runs across: its upright
// rings from low upwards, with all that they go round, made into one closed
// surface.
func (l *limit) across(low float64) *limit {
	n := int(math.Round(2 * math.Pi / slabAngle))
	rows := int((l.high-low)/slabLevel) + 1
	var m geom.Mesh
	for i := range rows + 1 {
		level := min(low+(l.high-low)*float64(i)/float64(rows), l.high-1e-3)
		ring := l.at(level)
		centre := geom.Centroid(ring)
		for j := range n {
			q, _ := rayMeets(ring, centre, float64(j)*slabAngle)
			m.V = append(m.V, acrossFrame.Local(shellVec(q, level)))
		}
	}
	for i := range rows {
		for j := range n {
			a, b := i*n+j, i*n+(j+1)%n
			m.T = append(m.T, [3]int{a, b, b + n}, [3]int{a, b + n, a + n})
		}
	}
	out := &limit{mesh: m, slices: map[float64][]r2.Vec{}}
	out.sortByLevel()
	return out
}

// plan evaluates the template's rings, bands and the rest.
func (b *builder) plan() (plan, error) {
	t := b.template
	p := plan{mirror: t.Mirror, paired: t.Mirror, names: [2]string{"top plate", "base plate"}}
	e := evaluator{env: b.env}
	names := map[string]int{}
	for _, r := range t.Rings {
		if !e.on(r.When) {
			continue
		}
		names[r.Name] = len(p.rings)
		p.rings = append(p.rings, b.ring(&e, r))
	}
	for _, bd := range t.Bands {
		if e.on(bd.When) {
			p.bands = append(p.bands, e.band(bd, names))
		}
	}
	e.ends(t, &p)
	p.fold = e.foldRule(t.Folds)
	if t.Frame.Axis == "across" {
		p.turnAcross()
	}
	if e.err == nil {
		e.err = p.check()
	}
	return p, e.err
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

func (e *evaluator) on(c template.Condition) bool {
	if e.err != nil {
		return false
	}
	var on bool
	on, e.err = c.On(e.env)
	return on
}

func (b *builder) ring(e *evaluator, r template.Ring) ringPlan {
	out := ringPlan{name: r.Name, level: e.num(r.At)}
	out.section = out.level
	if r.Section.Set() {
		out.section = e.num(r.Section)
	}
	for _, c := range r.Creases {
		out.ridges = append(out.ridges, ridge{turn(e.num(c.At)), e.num(c.Rise)})
	}
	for _, c := range r.Corners {
		out.corners = append(out.corners, e.num(c))
	}
	out.corners = sortedTurns(out.corners)
	return out
}

func (e *evaluator) band(bd template.Band, names map[string]int) bandPlan {
	out := bandPlan{name: bd.Name, from: names[bd.From], to: names[bd.To], along: bd.Bend == "along", panels: bd.Seams.Names}
	if out.name == "" {
		out.name = "panel"
	}
	for _, a := range bd.Seams.At {
		out.seams = append(out.seams, e.num(a))
	}
	if bd.Seams.Count.Set() {
		n, start := int(math.Round(e.num(bd.Seams.Count))), e.num(bd.Seams.Start)
		for i := range n {
			out.seams = append(out.seams, start+2*math.Pi*float64(i)/float64(n))
		}
	}
	return out
}

func (e *evaluator) ends(t *template.Template, p *plan) {
	if t.Cap != nil && e.on(t.Cap.When) {
		p.capped = t.Cap.Kind
		if t.Cap.Name != "" {
			p.names[0] = t.Cap.Name
		}
	}
	if t.Base != nil && e.on(t.Base.When) {
		p.base = t.Base.Kind == "plate"
		if t.Base.Name != "" {
			p.names[1] = t.Base.Name
		}
	}
	if t.Gap != nil && e.on(t.Gap.When) {
		p.gap = &gapPlan{at: turn(e.num(t.Gap.At)), width: e.num(t.Gap.Width), lap: e.num(t.Gap.Lap)}
	}
	if t.Span != nil {
		p.span = &[2]float64{e.num(t.Span.From), e.num(t.Span.To)}
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
	top := p.capped == "plate"
	p.capped = ""
	if p.base {
		p.capped = "plate"
	}
	p.base = top
	p.names[0], p.names[1] = p.names[1], p.names[0]
}

func (p *plan) check() error {
	if len(p.rings) < 2 && p.capped != "point" {
		return fmt.Errorf("a shell needs two rings, and %d are left with these settings", len(p.rings))
	}
	if len(p.bands) == 0 {
		return fmt.Errorf("no band is left with these settings")
	}
	for i := 1; i < len(p.rings); i++ {
		if p.rings[i].level <= p.rings[i-1].level+geom.Detail {
			return fmt.Errorf("ring %q lies at %.1f mm, not above ring %q at %.1f mm, with this body and these settings", p.rings[i].name, p.rings[i].level, p.rings[i-1].name, p.rings[i-1].level)
		}
		if len(p.rings[i].corners) != len(p.rings[0].corners) {
			return fmt.Errorf("ring %q has %d corners and ring %q has %d; all rings of a piece have the same corners", p.rings[i].name, len(p.rings[i].corners), p.rings[0].name, len(p.rings[0].corners))
		}
	}
	return nil
}

// ringEase is what rings add to the clearance, running evenly from one ring's
// level to the next.
func (b *builder) ringEase() (func(n r3.Vec, level float64) float64, error) {
	type stop struct {
		level float64
		ease  byDirection
	}
	var stops []stop
	e := evaluator{env: b.env}
	for _, r := range b.template.Rings {
		if !e.on(r.When) {
			continue
		}
		d, err := b.directions(r.Ease)
		if err != nil {
			return nil, err
		}
		stops = append(stops, stop{e.num(r.At), d})
	}
	if b.template.Frame.Axis == "across" || e.err != nil {
		return func(r3.Vec, float64) float64 { return 0 }, e.err
	}
	return func(n r3.Vec, level float64) float64 {
		for i, s := range stops {
			if level > s.level {
				continue
			}
			if i == 0 {
				return s.ease.toward(n)
			}
			t := (level - stops[i-1].level) / (s.level - stops[i-1].level)
			return (1-t)*stops[i-1].ease.toward(n) + t*s.ease.toward(n)
		}
		return stops[len(stops)-1].ease.toward(n)
	}, nil
}

// cutouts evaluates the openings.
func (b *builder) cutouts() ([]cutout, error) {
	e := evaluator{env: b.env}
	var out []cutout
	for _, o := range b.template.Openings {
		if !e.on(o.When) {
			continue
		}
		for _, curve := range e.curves(o) {
			c := newCutout(o.Name, o.View, curve)
			out = append(out, c)
			if o.Mirror {
				out = append(out, c.reflected())
			}
		}
	}
	return out, e.err
}

// roundPoints (detail): a hole of 40 mm drawn with so many chords is within
// 0.03 mm of round.
const roundPoints = 72

func (e *evaluator) curves(o template.Opening) [][]r2.Vec {
	if o.Round == nil {
		var pts []curvePoint
		for _, p := range o.Points {
			pts = append(pts, curvePoint{r2.Vec{X: e.num(p.X), Y: e.num(p.Y)}, p.Corner || !o.Smooth})
		}
		if o.Smooth {
			return [][]r2.Vec{smoothed(pts)}
		}
		var line []r2.Vec
		for _, p := range pts {
			line = append(line, p.p)
		}
		return [][]r2.Vec{line}
	}
	r := o.Round
	count, rows := 1, 1
	if r.Count.Set() {
		count = int(math.Round(e.num(r.Count)))
	}
	if r.Rows.Set() {
		rows = int(math.Round(e.num(r.Rows)))
	}
	x, y, radius, dx, dy := e.num(r.X), e.num(r.Y), e.num(r.Radius), e.num(r.StepX), e.num(r.StepY)
	var out [][]r2.Vec
	for i := range count {
		for j := range rows {
			out = append(out, circle(r2.Vec{X: x + float64(i)*dx, Y: y + float64(j)*dy}, radius))
		}
	}
	return out
}

func circle(c r2.Vec, radius float64) []r2.Vec {
	out := make([]r2.Vec, roundPoints)
	for i := range out {
		out[i] = r2.Add(c, r2.Scale(radius, direction(2*math.Pi*float64(i)/roundPoints)))
	}
	return out
}
