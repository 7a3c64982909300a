package pattern

import (
	"errors"
	"fmt"
	"math"

	"tasset/internal/flatten"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
)

// counted is how a band's seams are counted: evenly round the shell, at least
// so many, and more up to the most where the panels would stand off farther than
// within, or have to be strained more than foam easily bears.
type counted struct {
	count, most   int
	start, within float64
	setting       string // of the template that says the count; "": it says it otherwise
}

// seams are the angles of n seams. On a mirrored piece they stay mirrored:
// a seam at the front stays a seam, a panel's middle stays a middle.
func (c counted) seams(n int, mirror bool) []float64 {
	start := c.start
	half := math.Pi / float64(c.count)
	if k := math.Round(start / half); mirror && math.Abs(start-k*half) < sameAngle {
		start = math.Mod(k, 2) * math.Pi / float64(n)
	}
	var out []float64
	for i := range n {
		out = append(out, start+2*math.Pi*float64(i)/float64(n))
	}
	return out
}

// countPanels finds how many panels each band needs.
func (b *builder) countPanels() error {
	p, err := b.plan()
	if err != nil {
		return err
	}
	b.counts = map[int]int{}
	for _, band := range p.bands {
		c := band.counted
		if c.most <= c.count || c.within == 0 || !band.formed && !band.along {
			continue
		}
		if err := b.countBand(band.id, c, band.formed); err != nil {
			return err
		}
	}
	return nil
}

// countBand tries more and more panels, until there are enough or as many as
// there may be.
func (b *builder) countBand(id int, c counted, formed bool) error {
	for n := c.count; ; n++ {
		b.counts[id] = n
		over, err := b.over(id, c, formed)
		if err != nil || over <= 1 {
			return err
		}
		if n == c.most {
			b.tooFew(formed, over*c.within, c)
			return nil
		}
		if formed { // the strain goes by the square of a panel's width
			n = min(max(n, int(float64(n)*math.Sqrt(over))-1), c.most-1)
		}
	}
}

// over is a band's share of what it may stand off, or strain.
func (b *builder) over(id int, c counted, formed bool) (float64, error) {
	if !formed {
		off, err := b.farOff(id)
		return off / c.within, err
	}
	load, err := b.loadOf(id)
	var refusal *flatten.Refusal
	if errors.As(err, &refusal) { // narrower panels may do
		return mostEasy * mostEasy, nil
	}
	return load, err
}

// bandOf is the band of a number among those of the template.
func (s *shell) bandOf(id int) *band {
	for i := range s.bands {
		if s.bands[i].id == id {
			return &s.bands[i]
		}
	}
	return nil
}

// farOff is how far a band stands off the shape that was asked for.
func (b *builder) farOff(id int) (float64, error) {
	shape, err := b.shape(0)
	if err != nil {
		return 0, err
	}
	s := shape.shells[0]
	return s.bandStandsOff(s.bandOf(id), 0), nil
}

// loadOf is how much of what foam easily bears a formed band's panels ask for.
func (b *builder) loadOf(id int) (float64, error) {
	shape, err := b.shape(0)
	if err != nil {
		return 0, err
	}
	c := newCutter(shape.shells[0], b.hinge)
	if err := c.divide(); err != nil {
		return 0, err
	}
	most := 0.0
	for pi := range c.panels {
		p := &c.panels[pi]
		if p.band < 0 || c.bands[p.band].id != id {
			continue
		}
		grid := c.gridOf(p)
		if _, ok := c.imageOf(pi, grid); ok {
			continue
		}
		f, err := c.solved(grid, grid.rows.Triangles())
		if err != nil {
			return 0, err
		}
		c.formed[pi] = f
		most = max(most, c.load(f))
	}
	return most, nil
}

// tooFew says that a band may not have as many panels as it would need. Of a
// formed band its panels tell themselves.
func (b *builder) tooFew(formed bool, off float64, c counted) {
	if formed || off < c.within+geom.Detail {
		return
	}
	b.found = append(b.found, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
		Said:    fmt.Sprintf("with %d panels, the most that there may be, it stands off the rounded shape by %s; %s were asked for.", c.most, units.FormatFine(off, b.order.Units), units.FormatFine(c.within, b.order.Units)),
		Perhaps: "Ask for a larger deviation."})
}
