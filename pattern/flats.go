package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// mostFlats is how many of one flat part may be asked for.
const mostFlats = 60

// addParts puts what is not of the shell with its panels: flat parts, raised
// strips, pads.
func (b *builder) addParts(p *Piece, s *shape) error {
	if err := b.addFlats(p); err != nil {
		return err
	}
	if err := b.addLayers(p); err != nil {
		return err
	}
	return b.addPads(p, s)
}

// onlyFlats is the piece of a template without a shell: its flat parts are all of it,
// and it goes round no body.
func (b *builder) onlyFlats() (*Piece, []*shape) {
	p := b.piece()
	p.Free = true
	return p, []*shape{{pieceFromShell: geom.Identity()}}
}

// addFlats puts the parts that stay flat with the panels.
func (b *builder) addFlats(p *Piece) error {
	e := evaluator{env: b.env}
	for _, f := range b.template.Flats {
		if !e.on(f.When) {
			continue
		}
		panel, err := b.flatPart(&e, f)
		if err == nil {
			err = e.err
		}
		if err != nil {
			return fmt.Errorf("%s:%d: flat part %q: %w", b.template.File, f.Line, f.Name, err)
		}
		p.add(panel)
	}
	if e.err != nil {
		return e.err
	}
	for i := range p.Panels {
		if panel := &p.Panels[i]; panel.Role == FlatPart {
			p.markGlued(panel)
			p.endsOn(panel)
		}
	}
	if err := b.joinFlats(p); err != nil {
		return err
	}
	p.layFlats()
	if err := b.markFlats(p); err != nil {
		return err
	}
	return b.fastenFlats(p)
}

// add numbers a panel that is not of the shell and puts it last.
func (p *Piece) add(panel Panel) *Panel {
	panel.Number = len(p.Panels) + 1
	panel.Label = fmt.Sprintf("%s%d", p.Code, panel.Number)
	if panel.Up == (r2.Vec{}) {
		panel.Up = r2.Vec{Y: 1}
	}
	if panel.Edges == nil {
		line := append(append([]r2.Vec(nil), panel.Outline...), panel.Outline[0])
		panel.Edges = []Edge{{Kind: Rim, Line: line, Length: geom.Length(line)}}
	}
	p.Panels = append(p.Panels, panel)
	return &p.Panels[len(p.Panels)-1]
}

func (b *builder) flatPart(e *evaluator, f template.Flat) (Panel, error) {
	out := Panel{Role: FlatPart, Name: f.Name, Copies: 1}
	if f.Count.Set() {
		out.Copies = e.whole(f.Count, "parts", mostFlats)
	}
	if f.Thickness.Set() {
		t, err := b.thick(e, f.Thickness)
		if err != nil {
			return out, err
		}
		out.Thick = t
	}
	at := r3.Vec{X: e.num(f.X), Y: e.num(f.Y), Z: e.num(f.Z)}
	ring, err := e.flatRing(f)
	if err != nil || e.err != nil {
		return out, err
	}
	way := facingOf(f.Facing)
	if f.Follow != nil {
		if ring, err = b.followed(e, f, ring, way, at); err != nil {
			return out, err
		}
	}
	if way.flipped {
		for i := range ring {
			ring[i].X = -ring[i].X
		}
	}
	out.Outline = geom.CCW(ring)
	if err := checkFlat(out.Outline); err != nil || f.Facing == "" {
		return out, err
	}
	if out.Surface, err = way.stood(out.Outline, at); err != nil {
		return out, err
	}
	if b.template.Mirror && out.Copies == 2 && math.Abs(at.X) > geom.Detail { // one on either side
		out.Flipped = 1
	}
	return out, nil
}

// thick is a thickness of foam.
func (b *builder) thick(e *evaluator, f template.Formula) (float64, error) {
	t := e.num(f)
	if b.order.MockUp {
		t = card
	}
	if e.err == nil && !(t >= card && t <= thickest) {
		return 0, wrong(f, "its foam would be %g mm thick; it is from %g to %g mm", t, card, thickest)
	}
	return t, nil
}

// flatRing is the outline as drawn.
func (e *evaluator) flatRing(f template.Flat) ([]r2.Vec, error) {
	flat := Flat{}
	for _, p := range f.Points {
		flat.Points = append(flat.Points, r2.Vec{X: e.num(p.X), Y: e.num(p.Y)})
		flat.Corner = append(flat.Corner, p.Corner || !f.Smooth)
	}
	if e.err != nil {
		return nil, e.err
	}
	if err := flat.check(); err != nil {
		return nil, err
	}
	if f.Follow != nil { // nothing runs on between the last point and the first
		flat.Corner[0], flat.Corner[len(flat.Corner)-1] = true, true
	}
	if !f.Smooth {
		return flat.Points, nil
	}
	ring := geom.SmoothRing(flat.Points, flat.Corner, smoothStep)
	if f.Follow != nil { // the curve's way back from the last point is not drawn
		last := flat.Points[len(flat.Points)-1]
		for i := len(ring) - 1; i > 0 && geom.Dist(ring[i], last) > geom.Coincident; i-- {
			ring = ring[:i]
		}
	}
	return ring, nil
}

func checkFlat(ring []r2.Vec) error {
	box := geom.Bounds(ring)
	wide, high := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	switch _, _, bad := geom.Crossing(ring); {
	case bad:
		return fmt.Errorf("its outline crosses itself; list its points in turn, once round")
	case max(wide, high) > longestFlat:
		return fmt.Errorf("it is %.0f mm long; %.0f mm is the most", max(wide, high), longestFlat)
	case min(wide, high) < narrowestFlat:
		return fmt.Errorf("it is only %.1f mm across; %.0f mm is the least that can be cut of foam", min(wide, high), narrowestFlat)
	}
	return nil
}

// facingWay is how a flat part stands in the piece: the directions of its x and
// y as they are drawn, and where its show face looks.
type facingWay struct {
	x, y, out r3.Vec
	flipped   bool // seen from its show face, x runs to the left
}

// facingOf reads a part's facing. Coordinates go with the frame: from "front"
// and "back" x to the frame's +x and y up, from the sides x forward and y up,
// from "top" and "bottom" x to +x and y forward.
func facingOf(name string) facingWay {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	switch name { // of a limb, which is built as a left one
	case "outer":
		name = "left"
	case "inner":
		name = "right"
	}
	w := map[string]facingWay{
		"back": {x: x, y: y, out: r3.Scale(-1, z)},
		"left": {x: z, y: y, out: x}, "right": {x: z, y: y, out: r3.Scale(-1, x)},
		"top": {x: x, y: z, out: y}, "bottom": {x: x, y: z, out: r3.Scale(-1, y)},
	}[name]
	if w.x == (r3.Vec{}) {
		w = facingWay{x: x, y: y, out: z}
	}
	w.flipped = r3.Dot(r3.Cross(w.x, w.y), w.out) < 0
	return w
}

// stood is a flat panel at its place in the piece.
func (w facingWay) stood(outline []r2.Vec, at r3.Vec) (Surface, error) {
	t, err := geom.TriangulatePolygon(outline)
	if err != nil {
		return Surface{}, fmt.Errorf("its outline holds no part; list its points in turn, once round")
	}
	s := Surface{Flat: outline, T: t}
	for _, q := range outline {
		s.Bent = append(s.Bent, w.point(q, at))
	}
	return s, nil
}

// point is where a place of the flat panel, seen from its show face, stands.
func (w facingWay) point(q r2.Vec, at r3.Vec) r3.Vec {
	if w.flipped {
		q.X = -q.X
	}
	return r3.Add(at, r3.Add(r3.Scale(q.X, w.x), r3.Scale(q.Y, w.y)))
}
