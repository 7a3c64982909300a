package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// leastGlued is the shortest line that is marked where a flat part stands, mm
// (judgement).
const leastGlued = 10.0

// nearestFlat is how far a flat part that meets no panel may stand off one that it
// is glued to the side of, mm (judgement).
const nearestFlat = 30.0

// markGlued draws on the panels of the shell where a flat part meets their outer
// face: the line on which it is glued, or, of one that lies beside the shell, the
// part of its outline that lies over it.
func (p *Piece) markGlued(flat *Panel) {
	if len(flat.Surface.T) == 0 {
		return
	}
	met := false
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != OfShell {
			continue
		}
		for _, line := range p.gluedOn(panel, flat) {
			if panel.alongside(geom.At(line, geom.Length(line)/2), flat) > leastAlong {
				continue // it touches a part that lies on it somewhere, and where is chance
			}
			met = true
			panel.Marks = append(panel.Marks, Mark{Kind: "line", Line: line, Text: fmt.Sprintf("%s %s stands here, on the outside", flat.Label, flat.Name)})
		}
	}
	if !met {
		p.markBeside(flat)
	}
}

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

// A part stands on a panel where they meet at 30° or more, and lies beside it where
// they are 60° apart or less: by the cosine (judgement).
const leastAlong, leastBeside = 0.866, 0.5

// alongside is the cosine between a flat part and the panel at a place.
func (panel *Panel) alongside(q r2.Vec, flat *Panel) float64 {
	_, out := panel.Surface.LiftWithNormal(q)
	return math.Abs(r3.Dot(out, flat.Surface.normal(0)))
}

// gluedStep (detail): how finely such a line is held against the flat part's
// outline, mm.
const gluedStep = 1.0

// gluedOn are the lines on the flat panel where its outer face passes through a
// flat part.
func (p *Piece) gluedOn(panel, flat *Panel) [][]r2.Vec {
	f := &flat.Surface
	normal := f.normal(0)
	at := f.Bent[f.T[0][0]]
	return panel.lineWhere(p, func(v r3.Vec) float64 { return r3.Dot(normal, r3.Sub(v, at)) }, f.holds)
}

// lineWhere are the lines on the flat panel where its outer face passes through a
// plane, from which height is measured, at the places that are kept.
func (panel *Panel) lineWhere(p *Piece, height func(r3.Vec) float64, keep func(r3.Vec) bool) [][]r2.Vec {
	return panel.lineOn(panel.outerFace(p), height, keep)
}

// lineBelow is lineWhere on the surface that stands off the panel's neutral one by
// off, such as that of what lies over it.
func (panel *Panel) lineBelow(p *Piece, off float64, height func(r3.Vec) float64) [][]r2.Vec {
	return panel.lineOn(panel.standingOff(off), height, func(r3.Vec) bool { return true })
}

func (panel *Panel) lineOn(outer []r3.Vec, height func(r3.Vec) float64, keep func(r3.Vec) bool) [][]r2.Vec {
	var on [][2]r3.Vec // in the panel's plane
	for _, t := range panel.Surface.T {
		if ends, places, ok := panel.Surface.through(t, outer, height); ok {
			on = append(on, panel.stretches(ends, places, keep)...)
		}
	}
	var out [][]r2.Vec
	for _, chain := range geom.Chain(on) {
		var line []r2.Vec
		for _, v := range chain {
			line = append(line, r2.Vec{X: v.X, Y: v.Y})
		}
		if geom.Length(line) >= leastGlued {
			out = append(out, geom.Thin(line, geom.Detail))
		}
	}
	return out
}

// through is where a plane passes through a triangle, if it does: in the panel's plane
// and on its outer face, the same way through each triangle, so that the stretches
// follow each other.
func (s *Surface) through(t [3]int, outer []r3.Vec, height func(r3.Vec) float64) (ends, places [2]r3.Vec, ok bool) {
	found := 0
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		ha, hb := height(outer[a]), height(outer[b])
		if (ha < 0) == (hb < 0) {
			continue
		}
		end := 0
		if ha >= 0 {
			end = 1
		}
		if a > b { // as in the triangle on the other side
			a, b, ha, hb = b, a, hb, ha
		}
		share := ha / (ha - hb)
		q := geom.Lerp(s.Flat[a], s.Flat[b], share)
		ends[end], places[end] = r3.Vec{X: q.X, Y: q.Y}, geom.Lerp(outer[a], outer[b], share)
		found++
	}
	return ends, places, found == 2
}

// stretches are the parts of a line in the panel's plane whose places are kept and
// have foam.
func (panel *Panel) stretches(ends, places [2]r3.Vec, keep func(r3.Vec) bool) (on [][2]r3.Vec) {
	n := int(geom.Dist(ends[0], ends[1])/gluedStep) + 1
	for k := range n {
		from, to := float64(k)/float64(n), float64(k+1)/float64(n)
		a, b := geom.Lerp(ends[0], ends[1], from), geom.Lerp(ends[0], ends[1], to)
		middle := geom.Lerp(a, b, 0.5)
		if a != b && keep(geom.Lerp(places[0], places[1], (from+to)/2)) && panel.Covers(r2.Vec{X: middle.X, Y: middle.Y}) {
			on = append(on, [2]r3.Vec{a, b})
		}
	}
	return on
}

// holds tells whether a point of a flat part's plane lies in the part.
func (s *Surface) holds(p r3.Vec) bool {
	for _, t := range s.T {
		if _, inside := weights(p, s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]); inside {
			return true
		}
	}
	return false
}

// outerFace are the places of the panel's vertices on its outer face.
func (p *Panel) outerFace(of *Piece) []r3.Vec {
	return p.standingOff((1 - of.K) * of.Foam(p))
}

// standingOff are the places of the panel's vertices moved outwards.
func (p *Panel) standingOff(off float64) []r3.Vec {
	out := make([]r3.Vec, len(p.Surface.Bent))
	for i, n := range geom.VertexNormals(geom.Mesh{V: p.Surface.Bent, T: p.Surface.T}) {
		out[i] = r3.Add(p.Surface.Bent[i], r3.Scale(off, n))
	}
	return out
}
