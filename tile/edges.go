package tile

import (
	"fmt"
	"math"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

func (d *drawing) edge(e pattern.Edge) {
	switch {
	case e.Seam == 0:
		return
	case e.Allowance > 0 || !d.cutAlong(e):
		d.line(e.Line, false, seamLine, "seam")
		d.wall(e.Line, false)
	default:
		d.line(e.Line, false, gluedTo, "cut")
	}
	for _, n := range e.Notches {
		d.notch(e, n)
	}
}

// cutAlong tells whether a panel is cut along an edge's seam line from end to end: not
// where that edge, or one next to it, is cut beside its seam line.
func (d *drawing) cutAlong(e pattern.Edge) bool {
	for _, q := range [][]r2.Vec{e.Line[:1], e.Line[len(e.Line)-1:]} {
		if geom.DistToRing(d.panel.Outline, q[0]) > geom.Detail {
			return false
		}
	}
	return e.Beyond == nil
}

// endBar ends a joined edge, or begins one after a free edge, where nothing else shows it.
func (d *drawing) endBar(e, next pattern.Edge) {
	n := len(e.Line)
	if e.Seam == 0 && next.Seam == 0 || n < 2 || len(next.Line) < 2 {
		return
	}
	u, v := r2.Unit(r2.Sub(e.Line[n-1], e.Line[n-2])), r2.Unit(r2.Sub(next.Line[1], next.Line[0]))
	alike := e.Seam > 0 && next.Seam > 0 && d.meets(e) == d.meets(next)
	if along := r2.Dot(u, v); math.IsNaN(along) || along < math.Cos(corner) && (len(d.panel.Edges) < 2 || !alike) {
		return // NaN: an end so short that it has no direction
	}
	in := r2.Unit(r2.Vec{X: -u.Y - v.Y, Y: u.X + v.X})
	bar := []r2.Vec{e.Line[n-1], r2.Add(e.Line[n-1], r2.Scale(barDepth, in))}
	d.line(bar, false, endOfEdge, "seam")
	d.wall(bar, false)
}

// Notches are strokes from the line to cut into the panel, or across a seam line far
// within it, as many as the notch's number; from four on, one stroke and the number.
const (
	notchDepth = 4.0
	notchStep  = 1.3
)

func (d *drawing) notch(e pattern.Edge, n pattern.Notch) {
	cum := geom.Lengths(e.Line)
	at := arcOf(e.Line, cum, n.P)
	beyond := e.BeyondAt(at / max(cum[len(cum)-1], geom.Coincident))
	count := n.Rank
	if count > 3 || count < 1 {
		count = 1
	}
	for k := range count {
		off := (float64(k) - float64(count-1)/2) * notchStep
		foot := geom.AtLength(e.Line, cum, at+off)
		out, in := min(e.Allowance, notchDepth)+beyond, notchDepth+max(-beyond, 0)
		stroke := []r2.Vec{r2.Sub(foot, r2.Scale(out, n.In)), r2.Add(foot, r2.Scale(in, n.In))}
		d.line(stroke, false, draw.Style{Width: 0.3}, "mark")
		d.wall(stroke, false)
	}
	if n.Rank > 3 && d.w.shows(d.w.PageFromPanel.Apply(n.P)) && !d.notchNumber(n) {
		d.missing = append(d.missing, lost{says: fmt.Sprintf("the number of notch %d at %q", n.Rank, d.meets(e)),
			blocks: []block{{rows: []row{{fmt.Sprint(n.Rank), 1, false}}}}, at: d.w.PageFromPanel.Apply(n.P)})
	}
}

func (d *drawing) notchNumber(n pattern.Notch) bool {
	b := block{rows: []row{{fmt.Sprint(n.Rank), 1, false}}}
	at := d.w.PageFromPanel.Apply(n.P)
	in := d.w.PageFromPanel.Dir(n.In)
	return d.put(b, []float64{2.2, 1.8}, func(w, h float64) []place {
		deep := r2.Add(at, r2.Scale(notchDepth+1.2+max(w, h)/2, in))
		side := r2.Scale(1+max(w, h)/2, r2.Vec{X: in.Y, Y: -in.X})
		beside := r2.Add(at, r2.Scale(notchDepth*0.7, in))
		return []place{{deep, 0}, {r2.Add(beside, side), 0}, {r2.Sub(beside, side), 0}}
	})
}
