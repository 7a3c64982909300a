package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// nearestFlat is how far a flat part that meets no panel may stand off one that it
// is glued to the side of, mm (judgement).
const nearestFlat = 30.0

// markBeside draws the outline of a flat part on the panels that it lies over, seen
// square to it.
func (p *Piece) markBeside(flat *Panel) {
	whole := divided(append(slices.Clone(flat.Outline), flat.Outline[0]), stripStep)
	layers := p.layersOn(flat)
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != OfShell {
			continue
		}
		over := overlayOf(flat, panel, layers)
		ring := begunOff(whole, func(q r2.Vec) bool { _, ok := over.below(q); return ok })
		runs := over.stretches(ring)
		for k, r := range runs {
			if len(r.line) < 2 || geom.Length(r.line) < leastGlued {
				continue
			}
			mark := Mark{Kind: "line", Covers: true, Line: panel.leftUnder(flat, geom.Thin(r.line, geom.Detail)), Text: over.says(r, ring)}
			if over.tail != nil && flat.Copies == 1 { // the end that lies below is pulled out from under it
				mark.Only, mark.Text = onTheOther, mark.Text+", glued "+onTheOther
			}
			panel.Marks = append(panel.Marks, mark)
			if k == 0 || runs[k-1].to < r.from {
				flat.markEnd(panel, ring, r.from)
			}
			if k == len(runs)-1 || r.to < runs[k+1].from {
				flat.markEnd(panel, ring, r.to-1)
			}
		}
	}
}

// says tells of a stretch whether the part lies on the panel's outer face, or in its
// place: with its middle behind the neutral surface.
func (o *overlay) says(r beside, ring []r2.Vec) string {
	k := len(r.line) / 2
	place, out := o.panel.Surface.LiftWithNormal(r.line[k])
	if r3.Dot(out, r3.Sub(o.flat.Surface.Lift(ring[r.from+k]), place)) < 0 {
		return fmt.Sprintf("%s %s stands in here: cut the foam away up to this line", o.flat.Label, o.flat.Name)
	}
	return fmt.Sprintf("%s %s lies over this line, on the outside", o.flat.Label, o.flat.Name)
}

// beside is a stretch of a flat part's outline that lies over a panel: what of the outline,
// and where on the panel.
type beside struct {
	from, to int
	line     []r2.Vec
}

// stretches are the stretches of a closed line that lie over the panel. Where the panel's two
// ends meet below it, one ends and the next begins.
func (o *overlay) stretches(ring []r2.Vec) (out []beside) {
	for k, q := range ring {
		at, ok := o.below(q)
		if !ok {
			continue
		}
		n := len(out) - 1
		if n < 0 || out[n].to < k || geom.Dist(at, out[n].line[len(out[n].line)-1]) > farApart {
			out, n = append(out, beside{from: k}), n+1
		}
		out[n].to, out[n].line = k+1, append(out[n].line, at)
	}
	return out
}

// farApart is further than the places below two neighbours of a flat part's outline lie
// from each other on one stretch of a panel, mm: at 60° they are twice as far apart as
// those.
const farApart = 3 * stripStep

// layersOn are the flat parts that lie on another one, face to face.
func (p *Piece) layersOn(flat *Panel) (out []*Panel) {
	at := slices.IndexFunc(p.Panels, func(x Panel) bool { return x.Label == flat.Label })
	for i := range p.Panels {
		if i == at {
			continue
		}
		if _, ok := p.lies(min(i, at), max(i, at)); ok {
			out = append(out, &p.Panels[i])
		}
	}
	return out
}

// begunOff is a closed line that begins, and ends, at a point of which on does not
// hold, if there is one, so that no stretch where it holds is cut in two.
func begunOff(ring []r2.Vec, on func(r2.Vec) bool) []r2.Vec {
	for k, q := range ring {
		if !on(q) {
			return append(slices.Clone(ring[k:]), ring[1:k+1]...)
		}
	}
	return ring
}

// endStroke is the length of the stroke at either end of the stretch of a flat part's
// outline that lies over a panel, mm (judgement).
const endStroke = 8.0

// markEnd strokes the outline of a flat part where what lies over a panel begins or
// ends. Where that is the ring's own first or last point, all of it lies there.
func (flat *Panel) markEnd(panel *Panel, ring []r2.Vec, k int) {
	if k == 0 || k == len(ring)-1 {
		return
	}
	along := r2.Unit(r2.Sub(ring[k+1], ring[k-1]))
	in := r2.Vec{X: -along.Y, Y: along.X}
	flat.Marks = append(flat.Marks, Mark{Kind: "line", Line: []r2.Vec{ring[k], r2.Add(ring[k], r2.Scale(endStroke, in))},
		Text: fmt.Sprintf("edge of %s under here", panel.Label)})
}

// leftUnder runs a stretch of a flat part's outline, which goes round counter-clockwise
// as its show face is seen, so that the part lies at its left on the panel.
func (panel *Panel) leftUnder(flat *Panel, line []r2.Vec) []r2.Vec {
	_, out := panel.Surface.LiftWithNormal(geom.At(line, geom.Length(line)/2))
	if r3.Dot(out, flat.Surface.normal(0)) < 0 {
		return geom.Reversed(line)
	}
	return line
}

// overlay is a flat part that may lie beside a panel.
type overlay struct {
	flat, panel *Panel
	layers      []*Panel // that lie on the flat part
	tail        *Edge    // by which the panel laps over its own mirror image; nil: none
	middle      r3.Vec   // of a ball that holds the panel
	reach       float64  // and its radius
}

func overlayOf(flat, panel *Panel, layers []*Panel) *overlay {
	o := &overlay{flat: flat, panel: panel, layers: layers, tail: panel.tail()}
	for _, v := range panel.Surface.Bent {
		o.middle = r3.Add(o.middle, r3.Scale(1/float64(len(panel.Surface.Bent)), v))
	}
	for _, v := range panel.Surface.Bent {
		o.reach = max(o.reach, geom.Dist(o.middle, v))
	}
	return o
}

// below is the place of the panel that a place of the flat part lies over, seen square
// to that; also one on the tail by which it laps over its own mirror image.
func (o *overlay) below(q r2.Vec) (r2.Vec, bool) {
	out, to := o.flat.Surface.normal(0), o.flat.Surface.Lift(q)
	at, ok := o.besides(to, out)
	if ok || o.tail == nil {
		return at, ok
	}
	if at, ok = o.besides(mirrorX(to), mirrorX(out)); !ok {
		return at, false
	}
	a, b := o.tail.Line[0], o.tail.Line[len(o.tail.Line)-1]
	foot := r2.Add(a, r2.Scale(r2.Dot(r2.Sub(at, a), r2.Sub(b, a))/r2.Norm2(r2.Sub(b, a)), r2.Sub(b, a)))
	return r2.Sub(r2.Scale(2, foot), at), geom.Dist(foot, at) <= o.tail.Allowance
}

// besides is the place of the panel that lies near a place of the flat part and square
// to it, whichever face that shows to the panel.
func (o *overlay) besides(to, out r3.Vec) (r2.Vec, bool) {
	if geom.Dist(o.middle, to) > o.reach+nearestFlat {
		return r2.Vec{}, false
	}
	for _, way := range []r3.Vec{out, r3.Scale(-1, out)} {
		at, ok := o.panel.pierced(r3.Sub(to, r3.Scale(nearestFlat, way)), way)
		if !ok {
			continue
		}
		place := o.panel.Surface.Lift(at)
		if geom.Dist(place, to) <= nearestFlat && o.panel.alongside(at, o.flat) > leastBeside && !o.hidden(to, place) {
			return at, true
		}
	}
	return r2.Vec{}, false
}

// hidden tells whether another layer lies between a place of the flat part's outline and
// one of the panel, where that layer is glued and not this one.
func (o *overlay) hidden(to, place r3.Vec) bool {
	n := o.flat.Surface.normal(0)
	inside := geom.Lerp(to, o.flat.Surface.Lift(geom.Centroid(o.flat.Outline)), justWithin)
	return slices.ContainsFunc(o.layers, func(x *Panel) bool {
		_, covers := x.under(inside)
		layer, at := r3.Dot(n, r3.Sub(x.Surface.Bent[0], to)), r3.Dot(n, r3.Sub(place, to))
		return covers && layer*at > 0 && math.Abs(layer) < math.Abs(at)
	})
}

// justWithin is by what share of its way to the middle a place of an outline is moved
// in, so that a layer of the same outline covers it (judgement).
const justWithin = 0.02

// tail is the edge by which the panel laps over its own mirror image, nil if none.
func (panel *Panel) tail() *Edge {
	for i := range panel.Edges {
		if panel.tailed(panel.Edges[i]) {
			return &panel.Edges[i]
		}
	}
	return nil
}
