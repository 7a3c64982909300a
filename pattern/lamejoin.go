package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// rivetInset is how far a rivet of lames sits inside their ends, mm (common
// practice, no source).
const rivetInset = 20.0

// joinLames marks how the lames of a run, and the bands that it meets, hang
// together: on rivets at both sides, through neighbours at one place, or on three
// straps that are glued inside.
func (b *builder) joinLames(p *Piece, s *shape) {
	if s.lames == nil || s.lames.lames.joints() == 0 {
		return
	}
	for _, link := range s.lames.chain() {
		p.Chain = append(p.Chain, p.labelsOf(link, s.lames))
	}
	if !s.lames.lames.upperOut {
		slices.Reverse(p.Chain)
	}
	b.markCovered(p, s)
	if s.lames.lames.pivot {
		b.rivets(p, s)
	} else {
		b.lameStraps(p, s)
	}
}

// partOf names a part of a run by its panels: a lame, or those of the band there
// that have its rim.
func (p *Piece) partOf(link chainLink, run *plan) string {
	labels := p.labelsOf(link, run)
	switch n := len(labels); {
	case n == 0:
		return "the next part"
	case n > 3:
		return labels[0] + " … " + labels[n-1]
	}
	return strings.Join(labels, " + ")
}

func (p *Piece) labelsOf(link chainLink, run *plan) (labels []string) {
	ring := run.rings[run.lames.to].name
	if link.high == run.rings[run.lames.from].level {
		ring = run.rings[run.lames.from].name
	}
	for i := range p.Panels {
		panel := &p.Panels[i]
		rim := func(e Edge) bool { return e.Of == ring }
		if panel.Role == OfShell && panel.Lame == link.lame && (link.lame > 0 || slices.ContainsFunc(panel.Edges, rim)) {
			labels = append(labels, panel.Label)
		}
	}
	return labels
}

// lameSpots are the places of lame n (from 1) at an angle and a level of the
// shell.
func (b *builder) lameSpots(p *Piece, s *shape, angle, level float64, n int) []placeOn {
	if b.template.Frame.Axis == "across" {
		level = -level
	}
	side := math.Sin(angle) > sameAngle
	if b.template.Mirror && math.Sin(angle) < -sameAngle { // comes with its image
		return nil
	}
	return b.spots(p, s, angle, level, b.template.Mirror && side, n)
}

func (b *builder) rivets(p *Piece, s *shape) {
	run, l := s.lames, s.lames.lames
	angles := []float64{math.Pi / 2, -math.Pi / 2}
	if sp := run.span; sp != nil && (turn(math.Pi/2-sp[0]) > sp[1]-sp[0] || turn(-math.Pi/2-sp[0]) > sp[1]-sp[0]) {
		in := rivetInset / max(farthestReach(s.shells[len(s.shells)-l.count:]), rivetInset)
		angles = []float64{sp[0] + in, sp[1] - in}
	}
	links := run.chain()
	for i := range len(links) - 1 {
		lower, upper := links[i], links[i+1]
		for _, angle := range angles {
			first := p.stands.count + 1
			marked := false
			for _, n := range []int{lower.lame, upper.lame} {
				for _, at := range b.lameSpots(p, s, angle, (lower.high+upper.low)/2, n) {
					marked = true
					p.Panels[at.panel].Marks = append(p.Panels[at.panel].Marks, Mark{Kind: "fastening", Close: true,
						Line: around(at.q, leastMark, leastMark, true), Text: fmt.Sprintf("rivet %d", first)})
				}
			}
			if marked {
				p.stands.count++
			}
		}
	}
}

// chainLink is a lame, or a band that the run meets, where it hangs on the next.
type chainLink struct {
	lame      int     // from 1; 0: of the rigid rest
	low, high float64 // from where to where it goes; of a band: from what lies under or over the lame to as far again as a lame shows
	strap     float64 // the level of a strap on its inner face
	patch     float64 // how long the patch is that it is glued on with
}

// chain is what hangs together along a run, from the lower end up. A strap on a
// band is glued where no lame lies on its inner face.
func (p *plan) chain() []chainLink {
	l := p.lames
	_, _, pitch := p.run()
	off := pitch / 2 // of a band's strap, from the band's rim; and the longest patch
	var out []chainLink
	if l.below {
		rim := p.rings[l.from].level
		at := rim - off
		if !l.upperOut {
			at -= l.overlap
		}
		at = max(at, p.bandEnd(l.from, -1)+pitch/4+rimSpare)
		out = append(out, chainLink{low: at, high: rim, strap: at, patch: off})
	}
	for i := range l.count {
		low, high := p.reach(i)
		from, to := p.freeInside(i)
		out = append(out, chainLink{i + 1, low, high, (from + to) / 2, max(min(to-from-2*offSeam, off), leastMark)})
	}
	if l.above {
		rim := p.rings[l.to].level
		at := rim + off
		if l.upperOut {
			at += l.overlap
		}
		at = min(at, p.bandEnd(l.to, 1)-pitch/4-rimSpare)
		out = append(out, chainLink{low: rim, high: at, strap: at, patch: off})
	}
	return out
}

// freeInside is what of a lame's inner face nothing lies on.
func (p *plan) freeInside(i int) (low, high float64) {
	l := p.lames
	low, high = p.reach(i)
	switch {
	case l.upperOut && i > 0:
		_, low = p.reach(i - 1)
	case l.upperOut && l.below:
		low = max(low, p.rings[l.from].level)
	case !l.upperOut && i+1 < l.count:
		high, _ = p.reach(i + 1)
	case !l.upperOut && l.above:
		high = min(high, p.rings[l.to].level)
	}
	return low, high
}

// rimSpare is what a patch keeps from the far rim of a narrow band, mm (judgement).
const rimSpare = 5.0

// bandEnd is the level of the far ring of the band that begins or ends at a ring:
// way 1 above it, -1 below.
func (p *plan) bandEnd(ring, way int) float64 {
	for _, b := range p.bands {
		if way > 0 && b.from == ring && b.to < len(p.rings) {
			return p.rings[b.to].level
		}
		if way < 0 && b.to == ring {
			return p.rings[b.from].level
		}
	}
	return math.Inf(way)
}

// lameStraps marks three straps down the run's inside, each at one angle on all
// that hangs together. It is as long as the way from its first patch's middle to
// the last one's, and as what the run grows by on its outer line when it bends, so
// that it hangs slack when straight.
func (b *builder) lameStraps(p *Piece, s *shape) {
	run, l := s.lames, s.lames.lames
	from, to := math.Pi, 3*math.Pi
	if run.gap != nil {
		from, to = run.gap.at, run.gap.at+2*math.Pi
	}
	if sp := run.span; sp != nil {
		from, to = sp[0], sp[1]
	}
	for _, share := range []float64{1. / 6, 1. / 2, 5. / 6} {
		number, angle := p.stands.count+1, from+share*(to-from)
		path, glued, count := 0.0, [2]float64{}, 0
		var last anchor
		first := ""
		for _, link := range run.chain() {
			for k, at := range b.lameSpots(p, s, angle, link.strap, link.lame) {
				panel := &p.Panels[at.panel]
				at.q = panel.offTheEdges(patch{at: at.q, along: r2.Vec{Y: 1}, wide: strapWidth, long: link.patch}, offSeam)
				panel.Marks = append(panel.Marks, Mark{Kind: "fastening", Close: true, Line: around(at.q, strapWidth, link.patch, true), Text: fmt.Sprintf("strap %d, inside", number)})
				if k > 0 {
					count = 2
					continue
				}
				next := anchor{piece: p, panel: at.panel, q: at.q}
				if first == "" {
					first, count, glued[0] = panel.Label, panel.perPiece(p), link.patch
				} else {
					path += geom.Dist(panel.Surface.Lift(at.q), last.on().Surface.Lift(last.q))
				}
				last, glued[1] = next, link.patch
			}
		}
		if path == 0 {
			continue
		}
		p.stands.count = number
		each := (glued[0] + glued[1]) / 2 // half of a patch at either end lies beyond the path
		r := farthestReach(s.shells[len(s.shells)-l.count:])
		p.Straps = append(p.Straps, Strap{Kind: "strap", Name: "strap", Number: number, Count: count, Width: strapWidth, Path: path, Patch: each,
			Length: path + each + r*l.through, From: first, To: last.on().Label})
	}
}
