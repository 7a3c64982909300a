package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// dome closes a shell over a ring: rings of the same shape get smaller on a
// quarter of an ellipse, until a flat plate closes the last one.
type dome struct {
	at    *float64 // level of the plate; nil: where the limit ends
	rings int      // bands between ring and plate
	plate float64  // the plate's share of the ring's width
}

// The dome of a template that says no more (common practice, no source).
const (
	domeRings = 2
	domePlate = 0.4
	mostDome  = 12
)

// scaled makes a ring a smaller image of another, about that one's middle.
type scaled struct {
	of    int     // the ring at the dome's foot
	angle float64 // on the ellipse, from the foot
	rise  float64 // half axis of the ellipse along the shell's axis; negative downwards
}

func (e *evaluator) dome(c *template.Cap) *dome {
	if c == nil || c.Kind != "dome" || !e.on(c.When) {
		return nil
	}
	d := &dome{rings: domeRings, plate: domePlate}
	if c.At.Set() {
		at := e.num(c.At)
		d.at = &at
	}
	if c.Rings.Set() {
		d.rings = e.whole(c.Rings, "rings of the dome", mostDome)
	}
	if c.Plate.Set() {
		d.plate = e.num(c.Plate)
	}
	if e.err == nil && !(d.plate >= 0.05 && d.plate <= 0.95) {
		e.err = wrong(c.Plate, "the plate of the dome is %.4g %% as wide as its ring; it can be from 5 %% to 95 %%", 100*d.plate)
	}
	return d
}

// turned is the dome on an axis that runs the other way.
func (d *dome) turned() *dome {
	if d == nil || d.at == nil {
		return d
	}
	out, at := *d, -*d.at
	out.at = &at
	return &out
}

// domed is the plan with its domes written out as rings, bands and plates; a
// dome without a level of its own ends where the limit does.
func (p plan) domed(low, high float64) (plan, error) {
	var err error
	if d := p.domes[0]; d != nil {
		p.capped = "plate"
		if p, err = p.withDome(*d, high, false); err != nil {
			return p, err
		}
	}
	if d := p.domes[1]; d != nil {
		p, err = p.withDome(*d, low, true)
	}
	p.domes = [2]*dome{}
	return p, err
}

// withDome writes out a dome over the last ring, or under the first one.
func (p plan) withDome(d dome, level float64, under bool) (plan, error) {
	foot, sign := len(p.rings)-1, 1.0
	if under {
		foot, sign = 0, -1
	}
	if d.at != nil {
		level = *d.at
	}
	over := p.rings[foot]
	height := sign * (level - over.level)
	if !(height > geom.Detail) || math.IsInf(height, 0) {
		return p, fmt.Errorf("the plate of the dome lies at %.1f mm, not beyond ring %q at %.1f mm; give the dome a level of its own: at", level, over.name, over.level)
	}
	like := p.domeBand(under)
	if under {
		foot += d.rings
	}
	whole := math.Acos(d.plate)
	rise := height / math.Sin(whole)
	var rings []ringPlan
	for i := 1; i <= d.rings; i++ {
		r := over
		r.name, r.drawn, r.ridges = fmt.Sprintf("ring %d of the dome", i), nil, nil
		r.scaled = &scaled{of: foot, angle: whole * float64(i) / float64(d.rings), rise: sign * rise}
		r.level += sign * rise * math.Sin(r.scaled.angle)
		r.section = r.level
		rings = append(rings, r)
	}
	if under {
		p.putUnder(d, rings, like)
		return p, nil
	}
	for i := range rings {
		like.from, like.to = foot+i, foot+i+1
		p.bands = append(p.bands, like.numbered(d, i+1))
	}
	p.rings = append(slices.Clone(p.rings), rings...)
	return p, nil
}

// domeBand is what a dome's bands are like: the band that goes to the cap, which
// is taken out, or the one that ends at the dome.
func (p *plan) domeBand(under bool) bandPlan {
	at := len(p.bands) - 1
	if under {
		at = 0
	}
	like := p.bands[at]
	p.bands = slices.Clone(p.bands)
	if like.from == like.to { // on an axis that runs the other way it is the first
		p.bands = slices.Delete(p.bands, at, at+1)
	} else {
		like.name, like.panels = "dome", nil
	}
	like.along = false // between rings of one shape a strip is straight
	return like
}

// numbered tells the bands of a dome apart, counted from its foot, where the template
// has no names for their panels.
func (b bandPlan) numbered(d dome, i int) bandPlan {
	if b.panels == nil && d.rings > 1 {
		b.name = fmt.Sprintf("%s %d", b.name, i)
	}
	return b
}

// putUnder puts a dome's rings, listed from its foot on, under the first one.
func (p *plan) putUnder(d dome, rings []ringPlan, like bandPlan) {
	n := len(rings)
	slices.Reverse(rings)
	for i := range p.bands {
		p.bands[i].from, p.bands[i].to = p.bands[i].from+n, p.bands[i].to+n
	}
	for i := range p.rings {
		if s := p.rings[i].scaled; s != nil {
			p.rings[i].scaled = &scaled{s.of + n, s.angle, s.rise}
		}
	}
	var bands []bandPlan
	for i := range rings {
		like.from, like.to = i, i+1
		bands = append(bands, like.numbered(d, len(rings)-i))
	}
	p.rings, p.bands = append(rings, p.rings...), append(bands, p.bands...)
}

// smaller is a ring's outline, and places on it, as an image of another's.
func (s *scaled) smaller(line, at []r2.Vec, mirror bool) (outline, places []r2.Vec) {
	c := geom.Centroid(line)
	if mirror {
		c.Y = 0
	}
	share := math.Cos(s.angle)
	scale := func(pts []r2.Vec) []r2.Vec {
		out := make([]r2.Vec, len(pts))
		for i, p := range pts {
			out[i] = geom.Lerp(c, p, share)
		}
		return out
	}
	return scale(line), scale(at)
}

// domeRows gives the rows of a formed band of a dome, on the ellipse.
func (s *shell) domeRows(i int) func(t float64, rough bool) (row, error) {
	b := s.bands[i]
	d := s.plan.rings[b.to].scaled
	if d == nil {
		d = s.plan.rings[b.from].scaled
	}
	at := func(ring int) float64 {
		if ring == d.of {
			return 0
		}
		return s.plan.rings[ring].scaled.angle
	}
	from, to := at(b.from), at(b.to)
	foot := s.rowOfRing(d.of)
	middle := s.rings[d.of].point(s.middle(d.of))
	ellipse := func(t float64) row {
		sin, cos := math.Sincos((1-t)*from + t*to)
		rise := r3.Vec{Y: d.rise * sin}
		out := row{}
		for _, arc := range foot.arcs {
			line := make([]r3.Vec, len(arc))
			for j, p := range arc {
				line[j] = r3.Add(geom.Lerp(middle, p, cos), rise)
			}
			out.arcs = append(out.arcs, line)
		}
		return out
	}
	low, high := s.rowOfRing(b.from).less(ellipse(0)), s.rowOfRing(b.to).less(ellipse(1))
	return func(t float64, _ bool) (row, error) {
		out := ellipse(t)
		out.shift(low, high, t)
		return out, nil
	}
}
