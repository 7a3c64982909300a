package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

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
