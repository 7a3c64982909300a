package pattern

import (
	"errors"
	"fmt"
	"math"

	"tasset/internal/flatten"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// stripStep (detail): the longest chord of a strip's rails.
const stripStep = 2.0

// narrowestStrip is the narrowest strip of foam that can be cut and glued, mm
// (common practice, no source).
const narrowestStrip = 3.0

// shortestStrip is the shortest edge that a strip is laid along, mm (judgement): a
// shorter one can hardly be cut and held.
const shortestStrip = 15.0

// layerPlan is a raised strip with its formulas evaluated.
type layerPlan struct {
	name, along             string
	width, thickness, inset float64
	edges                   []string // names of the edges that it runs along
	widthOf                 string   // the formula of its width
	covers                  []covered
}

// addLayers lays raised strips on the outer face, one along each edge of each
// panel that they run along. A strip lies outside the panel, so it is longer
// than the panel's own edge where that is bent.
func (b *builder) addLayers(p *Piece) error {
	e := evaluator{env: b.env}
	for _, l := range b.template.Layers {
		if !e.on(l.When) {
			continue
		}
		plan := layerPlan{name: l.Name, along: l.Along, width: e.num(l.Width), widthOf: l.Width.String(), inset: e.size(l.Inset, "inset of "+l.Name)}
		var err error
		if plan.thickness, err = b.thick(&e, l.Thickness); err != nil {
			return fmt.Errorf("layer %q: %w", l.Name, err)
		}
		if e.err == nil && !(plan.width >= 0 && plan.width <= farthest) {
			return wrong(l.Width, "layer %q would be %.4g mm wide; it can be from %g to %g mm", l.Name, plan.width, narrowestStrip, farthest)
		}
		if plan.width > 0 && plan.width < narrowestStrip {
			b.doubtf("the raised strip %q is left out: it would be %s wide, and the narrowest strip that can be cut is %s.", l.Name, units.FormatSetting(plan.width, b.order.Units), units.FormatSetting(narrowestStrip, b.order.Units))
		}
		if plan.width < narrowestStrip {
			continue
		}
		plan.edges = b.edgesAlong(l.Along)
		for i := range p.Panels {
			if p.Panels[i].Role != OfShell {
				break
			}
			b.layAlong(p, i, &plan)
		}
		b.tellCovered(&plan)
	}
	return e.err
}

// edgesAlong are the names of the edges that a strip along a ring, a rim or an
// opening meets: a curved rim may have taken the first or the last ring's place.
func (b *builder) edgesAlong(along string) []string {
	out := []string{along}
	rings := b.template.Rings
	for _, r := range b.template.Rims {
		if n := len(rings); n > 0 && (r.Side == "lower" && rings[0].Name == along || r.Side == "upper" && rings[n-1].Name == along) {
			out = append(out, r.Name)
		}
	}
	return out
}

// layAlong lays a strip along each edge of a panel that is one of its own.
func (b *builder) layAlong(p *Piece, i int, l *layerPlan) {
	var lines [][]r2.Vec
	panel := &p.Panels[i]
	for _, e := range panel.Edges {
		if l.runs(e) && e.Length >= shortestStrip {
			lines = append(lines, e.Line)
		}
	}
	for j, h := range panel.Holes {
		if panel.holeOf[j] == l.along {
			half := len(h) / 2 // in two halves, each of which lies flat for certain
			lines = append(lines, h[:half+1:half+1], append(h[half:len(h):len(h)], h[0]))
		}
	}
	if len(lines) == 0 {
		return
	}
	normals := p.normals(panel)
	for _, line := range lines {
		s, width, err := panel.widestStrip(p, normals, line, *l)
		switch {
		case err != nil:
			b.doubtf("the raised strip %q is left out on panel %s: %v.", l.name, panel.Label, err)
			continue
		case width < l.width:
			b.doubtf("the raised strip %q is %s wide on panel %s, not %s: a wider one would fold over itself where its edge bends.", l.name, units.FormatSetting(width, p.Units), panel.Label, units.FormatSetting(l.width, p.Units))
		}
		added := p.add(s)
		panel = &p.Panels[i]
		l.coveredBy(panel, line, width)
		inner := geom.OffsetLine(line, -l.inset-width)
		panel.Marks = append(panel.Marks, Mark{Kind: "line", Line: geom.Reversed(inner), Covers: true, Text: fmt.Sprintf("%s %s, %s wide, on the outside", added.Label, l.name, units.FormatSetting(width, p.Units))})
	}
}

// widestStrip is the widest strip along a line, up to the width that is asked
// for, that does not fold over itself: narrowed in halves, as its edge may bend
// sharply on some bodies only.
func (p *Panel) widestStrip(of *Piece, normals []r3.Vec, line []r2.Vec, l layerPlan) (s Panel, width float64, err error) {
	for ; l.width >= narrowestStrip; l.width /= 2 {
		var bad error
		if s, bad = p.strip(of, normals, line, l); bad == nil {
			return s, l.width, nil
		} else if err == nil {
			err = bad
		}
	}
	return s, 0, err
}

// runs tells whether a strip runs along an edge.
func (l *layerPlan) runs(e Edge) bool {
	switch {
	case l.along == "gap":
		return e.Gap || e.Kind == Closure
	case e.Kind != Rim && e.Kind != Opening || e.Gap:
		return false
	}
	return contains(l.edges, e.Of)
}

// strip is the strip along a line at a panel's edge: between that line, lifted
// to the middle of the strip's foam on the outer face, and one beside it.
func (p *Panel) strip(of *Piece, normals []r3.Vec, line []r2.Vec, l layerPlan) (Panel, error) {
	d := (1-of.K)*of.Thickness + of.K*l.thickness
	if p.Thick > 0 {
		d += (1 - of.K) * (p.Thick - of.Thickness)
	}
	line = divided(geom.Thin(line, geom.Detail/5), stripStep) // short chords of a cut edge would fold the inner rail
	outer, inner := geom.OffsetLine(line, -l.inset), geom.OffsetLine(line, -l.inset-l.width)
	strip, err := flatten.Triangulate(p.outside(outer, normals, d), p.outside(inner, normals, d))
	if err != nil {
		return Panel{}, errors.New("it is too wide for the bend of its edge")
	}
	out := Panel{Role: Strip, Name: l.name + " on " + p.Label, Copies: p.Copies, Flipped: p.Flipped, Lame: p.Lame}
	if math.Abs(l.thickness-of.Thickness) > geom.Detail {
		out.Thick = l.thickness
	}
	r := run{strip: strip}
	r.place(&out.Surface, strip.Unroll(), -1, -1)
	out.Surface.turnedUp(r3.Vec{Y: 1}, r3.Vec{Z: 1})
	ids := append([]int(nil), r.lower...)
	for i := len(r.upper) - 1; i >= 0; i-- {
		ids = append(ids, r.upper[i])
	}
	for _, v := range ids {
		out.Outline = append(out.Outline, out.Surface.Flat[v])
	}
	if _, _, bad := geom.Crossing(out.Outline); bad || geom.Area(out.Outline) <= 0 {
		return Panel{}, fmt.Errorf("it would fold over itself, as its edge bends more sharply than %.3g mm", l.width)
	}
	return out, nil
}

// normals are the outward normals of a panel of the shell at its vertices. At a
// seam they lie half way to the neighbour's, so that strips meet there in a
// mitre.
func (p *Piece) normals(panel *Panel) []r3.Vec {
	type key [3]int64
	at := func(v r3.Vec) key {
		const grid = 1e3 // per mm
		return key{int64(math.Round(v.X * grid)), int64(math.Round(v.Y * grid)), int64(math.Round(v.Z * grid))}
	}
	var all geom.Mesh
	index := map[key]int{}
	add := func(m geom.Mesh) {
		ids := make([]int, len(m.V))
		for i, v := range m.V {
			id, ok := index[at(v)]
			if !ok {
				id = len(all.V)
				index[at(v)] = id
				all.V = append(all.V, v)
			}
			ids[i] = id
		}
		for _, t := range m.T {
			all.T = append(all.T, [3]int{ids[t[0]], ids[t[1]], ids[t[2]]})
		}
	}
	for i := range p.Panels {
		q := &p.Panels[i]
		if q.Role != OfShell || q.Lame != panel.Lame {
			continue
		}
		m := geom.Mesh{V: q.Surface.Bent, T: q.Surface.T}
		for _, c := range p.CopiesOf(q) {
			add(c.Mesh(m))
		}
	}
	normals := geom.VertexNormals(all)
	out := make([]r3.Vec, len(panel.Surface.Bent))
	for i, v := range panel.Surface.Bent {
		out[i] = normals[index[at(v)]]
	}
	return out
}

// divided cuts a line's long chords into short ones.
func divided(line []r2.Vec, step float64) []r2.Vec {
	out := []r2.Vec{line[0]}
	for i, q := range line[1:] {
		p := line[i]
		n := int(math.Ceil(geom.Dist(p, q) / step))
		for j := 1; j < n; j++ {
			out = append(out, geom.Lerp(p, q, float64(j)/float64(n)))
		}
		out = append(out, q)
	}
	return out
}

// outside lifts a line of the flat panel to a distance outside its neutral
// surface. Over a groove that closes when worn its places fall together; each
// stands once.
func (p *Panel) outside(line []r2.Vec, normals []r3.Vec, d float64) []r3.Vec {
	lifter := p.Surface.Lifter()
	var out []r3.Vec
	for _, q := range line {
		t, share := lifter.under(q)
		if t < 0 {
			continue
		}
		towards := r3.Unit(blend3(normals, p.Surface.T[t], share))
		v := r3.Add(blend3(p.Surface.Bent, p.Surface.T[t], share), r3.Scale(d, towards))
		if n := len(out); n == 0 || r3.Norm(r3.Sub(v, out[n-1])) > geom.Coincident {
			out = append(out, v)
		}
	}
	return out
}

// notePads notes where pads will be, which straps keep off.
func (b *builder) notePads(p *Piece, s *shape) {
	e := evaluator{env: b.env} // what is wrong with a pad is told where it is made
	for _, pad := range b.template.Pads {
		if !e.on(pad.When) {
			continue
		}
		angle, level, w, h := e.num(pad.Angle), e.num(pad.Level), e.num(pad.Width), e.num(pad.Height)
		if e.err != nil {
			return
		}
		for _, at := range b.spots(p, s, angle, level, pad.Mirror, anyLame) {
			for _, o := range p.overSeams(at.panel, around(at.q, w, h, true)) {
				p.Panels[o.panel].padded = append(p.Panels[o.panel].padded, o.ring)
			}
		}
	}
}

// addPads marks where pads of soft foam are glued, and gives their templates.
func (b *builder) addPads(p *Piece, s *shape) error {
	e := evaluator{env: b.env}
	for _, pad := range b.template.Pads {
		if e.on(pad.When) {
			if err := b.addPad(&e, p, s, pad); err != nil {
				return fmt.Errorf("pad %q: %w", pad.Name, err)
			}
		}
	}
	return e.err
}

func (b *builder) addPad(e *evaluator, p *Piece, s *shape, pad template.Pad) error {
	angle, level, w, h, t := e.num(pad.Angle), e.num(pad.Level), e.num(pad.Width), e.num(pad.Height), e.num(pad.Thickness)
	if e.err != nil {
		return e.err
	}
	if min(w, h) < narrowestFlat || max(w, h) > farthest || !(t >= 1 && t <= thickestPad) {
		return wrong(pad.Width, "it would be %.3g x %.3g x %.3g mm; a pad is %.0f to %.0f mm wide and high and 1 to %.0f mm thick", w, h, t, narrowestFlat, farthest, thickestPad)
	}
	copies := 0
	spots := b.spots(p, s, angle, level, pad.Mirror, anyLame)
	if len(spots) == 0 {
		b.doubtf("there is no foam where its pad %q is to go, at %.0f° and level %s: it is left out. Move it by its angle or its level.", pad.Name, units.Deg(angle), units.Format(level, p.Units))
	}
	label := fmt.Sprintf("%s%d", p.Code, len(p.Panels)+1)
	for _, at := range spots {
		copies += p.Panels[at.panel].Copies
		for _, o := range p.overSeams(at.panel, around(at.q, w, h, true)) {
			panel := &p.Panels[o.panel]
			panel.Marks = append(panel.Marks, Mark{Kind: "pad", Line: o.ring, Close: true, Text: fmt.Sprintf("pad %s inside", label)})
		}
	}
	if copies > 0 {
		p.add(Panel{Role: Pad, Name: pad.Name, Copies: copies, Thick: t,
			Outline: around(r2.Vec{X: w / 2, Y: h / 2}, w, h, true), Notes: []string{"Cut of soft foam."}})
	}
	return nil
}

// thickestPad is the thickest pad, mm (common practice, no source: pads of a
// helmet are 10 to 25 mm).
const thickestPad = 60.0
