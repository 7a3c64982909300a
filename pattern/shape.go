package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// shape is a piece's shell and what is cut out of it.
type shape struct {
	shells         []*shell // the template's own rings and bands, if it has bands; then its lames
	lames          *plan    // of the run of lames; nil: none
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
	ringEase, err := b.ringEase()
	if err != nil {
		return nil, err
	}
	neutral := b.k*b.thickness + extra
	p.moveOut(neutral)
	p.aboutAxis, p.spine = b.stand.beside, b.spine
	upright := b.template.Frame.Axis != "across"
	around := func(lift func(level float64) float64) *limit {
		return b.limit(&p, func(n, at r3.Vec) float64 {
			return b.clear(n, at) + ringEase(n, at.Y) + neutral + lift(levelOf(at, upright))
		})
	}
	out := &shape{pieceFromShell: geom.Identity()}
	if !upright {
		out.pieceFromShell = acrossFrame
		p.ends, p.mirror = b.template.Mirror, false
	}
	if p.gap != nil {
		out.lap = p.gap.lap
	}
	gap := b.thickness + slide
	if len(p.bands) > 0 {
		if err := out.raiseBands(&p, around(p.liftedBands(gap)), upright); err != nil {
			return nil, err
		}
	}
	if p.lames != nil {
		if err := out.raiseLames(&p, gap, around); err != nil {
			return nil, err
		}
	}
	out.cuts, err = b.cutouts(out.shells[0])
	return out, err
}

// raiseBands raises the shell of the template's own bands.
func (s *shape) raiseBands(p *plan, lim *limit, upright bool) error {
	if p.capped == "plate" && upright { // a plate stands above all that it covers
		top := &p.rings[len(p.rings)-1]
		top.level = max(top.level, lim.high)
	}
	domed, err := p.domed(lim.low, lim.high)
	if err != nil {
		return err
	}
	bands, err := newShell(domed, lim)
	s.shells = []*shell{bands}
	return err
}

// raiseLames raises the lames, a gap off each other and off the bands that they
// cover, and moves out the bands that cover them.
func (s *shape) raiseLames(p *plan, gap float64, around func(lift func(level float64) float64) *limit) error {
	s.lames = p
	lames, err := p.lameShells(s.bands(), gap, around)
	if err != nil {
		return err
	}
	if bands := s.bands(); bands != nil {
		if s.shells[0], err = p.coverRun(bands, lames, gap); err != nil {
			return err
		}
	}
	s.shells = append(s.shells, lames...)
	return nil
}

// bands is the shell of the template's own bands; nil if it has none.
func (s *shape) bands() *shell {
	if len(s.shells) == 0 {
		return nil
	}
	return s.shells[0]
}

// levelOf is how far up the shell's axis a point of the piece lies.
func levelOf(at r3.Vec, upright bool) float64 {
	if upright {
		return at.Y
	}
	return acrossFrame.Local(at).Y
}

// limit is what a shell goes round that keeps an outset from the body.
func (b *builder) limit(p *plan, outset func(n, at r3.Vec) float64) *limit {
	lim := limitOf(movedBy(b.stand.around, b.stand.outward, outset), b.template.Mirror)
	if b.under != nil {
		lim.add(movedBy(b.under.mesh, b.under.outward, func(n, at r3.Vec) float64 { return outset(n, at) - b.clear(n, at) + b.gap }))
	}
	if b.stand.out {
		return lim.pointedOut()
	}
	if b.spine != nil { // a curved axis has no levels of the body
		return limitOf(geom.Mesh{}, b.template.Mirror)
	}
	upright := b.template.Frame.Axis != "across"
	if b.template.Draw == "down" {
		floor := b.stand.low
		if upright {
			floor = p.rings[0].level
		}
		lim.rememberAbove(floor)
	}
	if !upright {
		lim = lim.across(b.stand.low)
	}
	return lim
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
		side := 0
		for j := range n {
			var q r2.Vec
			q, side = rayMeets(ring, centre, float64(j)*slabAngle, side)
			m.V = append(m.V, acrossFrame.Local(shellVec(q, level)))
		}
	}
	for i := range rows {
		for j := range n {
			a, b := i*n+j, i*n+(j+1)%n
			m.T = append(m.T, [3]int{a, b, b + n}, [3]int{a, b + n, a + n})
		}
	}
	return limitOf(m, false)
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
