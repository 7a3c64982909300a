package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
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

// markCovered draws on each part of a run, on its outer face, how far the one that
// lies over it comes when the run is straight, and measures how wide a strip of the
// foam that one covers. Of a repeated shape, or one on a curve, it draws none.
func (b *builder) markCovered(p *Piece, s *shape) {
	if b.spine != nil || len(b.repeats) > 1 {
		return
	}
	l := s.lames.lames
	links := s.lames.chain()
	for i := range len(links) - 1 {
		under, over := links[i], links[i+1]
		level, covered := over.low, under.high
		if !l.upperOut {
			under, over = over, under
			level, covered = over.high, under.low
		}
		text := fmt.Sprintf("this side lies under %s, when straight", p.partOf(over, s.lames))
		for j := range p.Panels {
			panel := &p.Panels[j]
			if panel.Role != OfShell || panel.Lame != under.lame {
				continue
			}
			for _, line := range panel.lineBelow(p, b.thickness+slide, func(v r3.Vec) float64 { return s.pieceFromShell.Local(v).Y - level }) {
				line = panel.coveredLeft(line, func(v r3.Vec) float64 { return (s.pieceFromShell.Local(v).Y - level) * (covered - level) })
				panel.Marks = append(panel.Marks, Mark{Kind: MarkCovered, Line: line, Text: text})
				if under.lame > 0 {
					p.Covers.add(panel.widths(line, func(v r3.Vec) float64 { return s.pieceFromShell.Local(v).Y - covered }))
				}
			}
		}
	}
}

// noteBehind notes on each part of a run where the one that lies under it is on its
// inner face when the run is straight. Of a repeated shape, or one on a curve, it notes
// none.
func (b *builder) noteBehind(p *Piece, s *shape) {
	if s.lames == nil || s.lames.lames.joints() == 0 || b.spine != nil || len(b.repeats) > 1 {
		return
	}
	links := s.lames.chain()
	for i := range len(links) - 1 {
		over, level, rim := links[i+1], links[i].high, links[i+1].low
		if !s.lames.lames.upperOut {
			over, level, rim = links[i], links[i+1].low, links[i].high
		}
		for j := range p.Panels {
			panel := &p.Panels[j]
			if panel.Role != OfShell || panel.Lame != over.lame {
				continue
			}
			for _, line := range panel.lineBelow(p, -b.thickness-slide, func(v r3.Vec) float64 { return s.pieceFromShell.Local(v).Y - level }) {
				line = panel.coveredLeft(line, func(v r3.Vec) float64 { return (s.pieceFromShell.Local(v).Y - level) * (rim - level) })
				wide := math.Abs(rim - level)
				for _, w := range panel.widths(line, func(v r3.Vec) float64 { return s.pieceFromShell.Local(v).Y - rim }) {
					wide = max(wide, w)
				}
				panel.behind = append(panel.behind, leftOf(line, wide+offSeam)...)
			}
		}
	}
}

// leftOf is the strip of a width at the left of a line, in convex parts.
func leftOf(line []r2.Vec, width float64) (out [][]r2.Vec) {
	for i := 0; i+1 < len(line); i++ {
		if geom.Dist(line[i], line[i+1]) < geom.Coincident {
			continue
		}
		off := r2.Scale(width, quarterTurn(r2.Unit(r2.Sub(line[i+1], line[i]))))
		out = append(out, []r2.Vec{line[i], line[i+1], r2.Add(line[i+1], off), r2.Add(line[i], off)})
	}
	return out
}

// coveredLeft runs a line so that what is covered lies at its left on the flat panel:
// where more is more.
func (panel *Panel) coveredLeft(line []r2.Vec, more func(r3.Vec) float64) []r2.Vec {
	cum, on := geom.Lengths(line), panel.Surface.Lifter()
	half := cum[len(cum)-1] / 2
	at, left := geom.AtLength(line, cum, half), quarterTurn(headingAt(line, cum, half))
	if more(on.Lift(r2.Add(at, left))) < more(on.Lift(r2.Sub(at, left))) {
		return geom.Reversed(line)
	}
	return line
}

// Widths are the least and the most of a width that varies, mm; the most is 0 where
// none is known.
type Widths struct{ Least, Most float64 }

func (w *Widths) add(widths []float64) {
	for _, v := range widths {
		if w.Most == 0 || v < w.Least {
			w.Least = v
		}
		w.Most = max(w.Most, v)
	}
}

// widths are how far a line on the flat panel lies from the panel's rim at which
// height is nothing, at places along the line that lie across from that rim.
func (panel *Panel) widths(line []r2.Vec, height func(r3.Vec) float64) (out []float64) {
	const steps = 20
	rim, length := panel.levelRim(height), geom.Length(line)
	for i := range steps + 1 {
		q := geom.At(line, length*float64(i)/steps)
		least, across := math.Inf(1), false
		for _, s := range rim {
			foot, t := geom.NearestOnSegment(q, s.a, s.b)
			if d := geom.Dist(foot, q); d < least {
				least, across = d, t > 0 && t < 1 || s.goesOnBefore && t == 0 || s.goesOnAfter && t == 1
			}
		}
		if across {
			out = append(out, least)
		}
	}
	return out
}

// rimStretch is a straight stretch of a panel's rim, which may go on at its ends.
type rimStretch struct {
	a, b                      r2.Vec
	goesOnBefore, goesOnAfter bool
}

// levelRim is where the panel's rim is at height nothing.
func (panel *Panel) levelRim(height func(r3.Vec) float64) (rim []rimStretch) {
	on := panel.Surface.Lifter()
	level := func(q r2.Vec) bool { return math.Abs(height(on.Lift(q))) <= rimLevel }
	for _, e := range panel.Edges {
		was := level(e.Line[0])
		for k := 0; k+1 < len(e.Line); k++ {
			is := level(e.Line[k+1])
			if was && is {
				rim = append(rim, rimStretch{e.Line[k], e.Line[k+1], k > 0, k+2 < len(e.Line)})
			}
			was = is
		}
	}
	return rim
}

// rimLevel is how far a point of a level rim may lie from its level, mm (detail).
const rimLevel = 0.5

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
