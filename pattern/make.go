package pattern

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"slices"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// Make turns the pieces that a costume asks for into panels. Templates are
// read from fsys by name; the form gives the body. The findings say what is
// doubtful about a piece; an error names the piece that could not be made, and
// then there is no set.
func Make(ctx context.Context, orders []Order, fsys fs.FS, form *body.Form, m Material) (*Set, []report.Finding, error) {
	return (*Set)(nil).Remake(ctx, orders, fsys, form, m)
}

// placed is an error at a place of its own within an order.
type placed struct {
	where string
	error
}

// failed says which piece could not be made, and the nearest place to look at.
func (o *Order) failed(err error) error {
	where := o.Where
	if p, ok := err.(placed); ok {
		err = p.error
		if p.where != "" {
			where = p.where
		}
	}
	return fmt.Errorf("%s%s: %w", at(where), o.Name, err)
}

func at(where string) string {
	if where == "" {
		return ""
	}
	return where + ": "
}

// makeOrder makes one order: one piece, or two where left and right differ.
func makeOrder(o Order, t *template.Template, made finished, form *body.Form, m Material) ([]Piece, []report.Finding, error) {
	if o.Flat != nil {
		p, fs, err := makeFlat(o, m)
		if err != nil {
			return nil, nil, err
		}
		return []Piece{*p}, fs, nil
	}
	if err := checkDrawn(o.Drawn); err != nil {
		return nil, nil, err
	}
	form, err := adjusted(form, o)
	if err != nil {
		return nil, nil, err
	}
	sides, pairs := sidesOf(o, t, made, form)
	var pieces []Piece
	var findings []report.Finding
	for _, side := range sides {
		b := builder{order: o, template: t, form: form, material: m, side: side, others: made}
		p, fs, err := b.build()
		if err != nil {
			return nil, nil, err
		}
		if pairs {
			pair(p)
		}
		if len(sides) == 2 {
			p.Name = side.String() + " " + p.Name
		}
		pieces = append(pieces, *p)
		findings = append(findings, fs...)
	}
	return pieces, findings, nil
}

func limb(s body.Segment) bool {
	switch s {
	case body.UpperArm, body.Forearm, body.Hand, body.Thigh, body.Shank, body.Foot:
		return true
	}
	return false
}

// sidesOf are the limbs that an order is built on: one for a pair that is
// alike, both where a governing size differs from left to right.
func sidesOf(o Order, t *template.Template, made finished, form *body.Form) (sides []body.Side, pairs bool) {
	paired := t.Frame.Paired()
	var on []body.Side // the sides of what it lies over, where they are apart
	for _, p := range made(t.Frame.Over) {
		paired = paired || p.stood.sided
		if p.Side != body.Both && !slices.Contains(on, p.Side) {
			on = append(on, p.Side)
		}
	}
	switch {
	case !paired:
		return []body.Side{body.Both}, false
	case o.Side != body.Both:
		return []body.Side{o.Side}, false
	case len(on) > 0:
		slices.Sort(on)
		return on, false
	}
	for _, n := range t.Governs {
		l, okL := form.Measurements().Get(n, body.Left)
		r, okR := form.Measurements().Get(n, body.Right)
		if okL && okR && math.Abs(l.Value-r.Value) > math.Hypot(l.SD, r.SD) {
			return []body.Side{body.Left, body.Right}, false
		}
	}
	return []body.Side{body.Left}, true
}

// pair makes a piece stand for a left and a right one, cut from the same
// templates, one set turned over.
func pair(p *Piece) {
	p.Side, p.Copies = body.Both, 2
	for i := range p.Panels {
		n := p.Panels[i].Copies
		p.Panels[i].Copies, p.Panels[i].Flipped = 2*n, n
	}
	for i := range p.Straps {
		p.Straps[i].Count *= 2
	}
	for i := range p.Sheets {
		p.Sheets[i].Count *= 2
	}
	for i := range p.Bought {
		p.Bought[i].Count *= 2
	}
}

// builder makes one piece on one side.
type builder struct {
	order    Order
	template *template.Template
	form     *body.Form
	material Material
	side     body.Side
	others   finished // pieces that must be made before it
	spine    *spine   // its axis, where that is a curve; nil: straight
	under    *under   // those that it lies over; nil: none
	gap      float64  // from their outer face to its inner one

	stand     *stand
	env       template.Env
	thickness float64
	k         float64
	findings  []report.Finding
	clear     func(n, p r3.Vec) float64 // of the inner face, piece axes
	asked     float64                   // the least that clear asks for
	askings   []Asking                  // and by the way that the foam looks
	passes    r3.Vec                    // outward normal of the foam that is nearest to what it passes, piece axes
	padding   float64                   // of that, what stands only on what bears the piece
	dropped   []dropped                 // seams whose place drawn ones take
	made      *assembly                 // the last one
	repeats   []copyPlan                // of the shape; one without a name if it is not repeated
	counts    map[int]int               // panels of a band of the template, where there are more than it says
	found     []report.Finding          // before the piece was raised
}

// pushes caps how often a piece is raised again, further out, because it was
// measured to come too near: at a sharp nose or ear the moved surface falls a
// little short of its distance, and round a bent joint more so.
const pushes = 6

// near is the share of the distance asked for that a piece is raised again to
// reach, a little above what it is held to.
const near = 0.99

// held is the share of the distance asked for that a piece is held to.
const held = 0.98

func (b *builder) build() (*Piece, []report.Finding, error) {
	if err := b.prepare(); err != nil {
		return nil, nil, err
	}
	var err error
	if b.repeats, err = b.copies(); err != nil {
		return nil, nil, err
	}
	maps.Copy(b.env, b.repeats[0].env)
	if len(b.template.Rings) == 0 {
		return b.finish(b.onlyFlats())
	}
	if err := b.countPanels(); err != nil {
		return nil, nil, err
	}
	if err := b.dropSeams(); err != nil {
		return nil, nil, err
	}
	p, shapes, err := b.raise(0)
	extra := 0.0
	for n := 0; err == nil && n < pushes; n++ {
		out, up := b.tooLow(p)
		if out = max(out, b.tooNear(p)); max(out, up) == 0 {
			break
		}
		if n >= pushes/2 { // what is left then shrinks slowly
			out, up = 2*out, 2*up
		}
		extra += out
		b.stand.raise(up)
		p, shapes, err = b.raise(extra)
	}
	if err != nil {
		return nil, nil, err
	}
	p.PushedOut += extra
	return b.finish(p, shapes)
}

// finish puts on a piece what its distance from the body does not hang on, and
// judges it.
func (b *builder) finish(p *Piece, shapes []*shape) (*Piece, []report.Finding, error) {
	if err := b.furnish(p, shapes); err != nil {
		return nil, nil, err
	}
	if err := b.addBought(p); err != nil {
		return nil, nil, err
	}
	if err := b.doubts(); err != nil {
		return nil, nil, err
	}
	if b.order.MockUp {
		p.inCard()
	}
	if len(p.Panels) == 0 {
		return nil, nil, fmt.Errorf("nothing is left of the piece: its rims and openings cut all of it away; move them")
	}
	b.judge(p)
	b.rest(shapes)
	if b.stand.mirrored {
		p.reflect()
	}
	return p, b.findings, nil
}

// rest forgets what nothing needs that is kept of the builder: to place what fastens the
// piece to others.
func (b *builder) rest(shapes []*shape) {
	b.made, b.under = nil, nil
	for _, s := range shapes {
		for _, shell := range s.shells {
			shell.limit.rest()
		}
	}
}

// raise builds the piece's shell, moved out by extra, and measures how near it
// comes to the body.
func (b *builder) raise(extra float64) (*Piece, []*shape, error) {
	b.findings = append([]report.Finding(nil), b.found...)
	shapes, cut, err := b.cutShapes(extra)
	if err != nil {
		return nil, nil, err
	}
	shape := shapes[0]
	drawn, rimsDrawn, err := b.drawn(shape, cut.panels)
	if err != nil {
		return nil, nil, err
	}
	rims, err := b.rims(shape, cut.panels, rimsDrawn)
	if err != nil {
		return nil, nil, err
	}
	parts, err := cut.trimAll(slices.Concat(shape.cuts, rims, drawn))
	if err != nil {
		return nil, nil, err
	}
	b.warnOfScraps(parts)
	a := &assembly{blanks: cut, parts: parts, openings: openingsOf(shape.cuts, drawn), lap: shape.lap, foam: foam{thickness: b.thickness, k: b.k, traced: b.order.Traced, code: b.template.Code}}
	b.made = a
	p := b.piece()
	for _, s := range shapes {
		b.cover(p, s)
	}
	if p.Panels, p.Seams, err = a.assemble(); err != nil {
		return nil, nil, err
	}
	for _, of := range shapes {
		for _, s := range of.shells {
			p.PushedOut, p.Deviation = max(p.PushedOut, s.pushed), max(p.Deviation, s.standsOff())
		}
	}
	p.Clearance, p.Gap, p.GapAsked = b.clearance(p), b.keepsOff(p), b.gap
	if len(b.stand.passed) > 0 {
		p.Passing, p.PassAsked = b.passing(p), b.asked-b.padding
	}
	return p, shapes, nil
}

// furnish puts on the shell what its distance from the body does not hang on:
// marks, fastenings, and parts that are not of the shell.
func (b *builder) furnish(p *Piece, shapes []*shape) error {
	shape := shapes[0]
	b.onFirstOnly()
	p.stands = b.stands(shape)
	for _, s := range shapes { // what is fastened keeps off it
		b.noteBehind(p, s)
	}
	if err := b.addMarks(p); err != nil {
		return err
	}
	b.addTongue(p, shape.lap)
	for _, s := range shapes { // first, as their straps run straight down
		b.joinLames(p, s)
	}
	b.notePads(p, shape)
	if err := b.addPlaced(p, shape); err != nil {
		return err
	}
	return b.addParts(p, shape)
}

// piece is the piece without its panels.
func (b *builder) piece() *Piece {
	t := b.template
	p := &Piece{Name: b.order.Name, Template: t.Name, Title: t.Title, About: t.About, Code: t.Code,
		Segment: b.stand.segment, Joint: b.stand.floats, Mirror: t.Mirror && len(b.order.Drawn) == 0, With: goesWith(t), Side: b.side, Copies: 1, Thickness: b.thickness, MockUp: b.order.MockUp, K: b.k, Traced: b.order.Traced, Frame: b.stand.frame, Free: b.stand.free, stood: b.stand, Asked: b.asked, Askings: b.askings, Units: b.order.Units}
	p.Notes = append(drawnOn(b.order.Drawn), changed(b.order.Adjust)...)
	idle := b.idle()
	for _, s := range t.Settings {
		if idle[s.Ident] {
			continue
		}
		_, typed := b.order.Settings[s.Name]
		unit := map[string]string{"mm": "mm", "deg": "deg", "percent": "%", "choice": "choice"}[s.Unit]
		set := Setting{Name: s.Name, Value: b.env[s.Ident], Unit: unit, Typed: typed, Least: s.Min, Most: s.Max}
		if len(s.Choices) > 0 {
			set.Word = s.Choices[int(set.Value)]
		}
		p.Settings = append(p.Settings, set)
	}
	return p
}

// hinge is the gap that a fold leaves between the facets on the neutral
// surface: foam grooved inside hinges on its outer face, foam scored outside on
// its inner one.
func (b *builder) hinge(kind string, angle float64) float64 {
	setback := b.thickness * math.Tan(angle/2)
	switch kind {
	case "scored outside":
		return -2 * b.k * setback
	case "bent":
		return 0
	}
	return 2 * (1 - b.k) * setback
}

// toPiece moves a raw panel from the shell's axes into the piece's, and turns
// it upright on paper.
func (p *rawPanel) toPiece(f geom.Frame) {
	for i, v := range p.surf.Bent {
		p.surf.Bent[i] = f.Point(v)
	}
	p.surf.turnedUp(r3.Vec{Y: 1}, r3.Vec{Z: 1})
}

// smallestPart (common practice, no source): a strip of foam narrower than this
// cannot be glued on well.
const smallestPart = 15.0

// warnOfScraps finds remnants that are too small to glue.
func (b *builder) warnOfScraps(parts []part) {
	for _, p := range parts {
		e := p.cutBy()
		if e == nil {
			continue
		}
		box := geom.Bounds(p.outline())
		if w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y; min(w, h) < smallestPart {
			f := report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
				Said:    fmt.Sprintf("%s leaves a strip of only %s of a panel.", e.said(), units.FormatFine(min(w, h), b.order.Units)),
				Perhaps: "Move it by its settings, or draw it otherwise, so that it ends on the seam or well clear of it."}
			if !slices.Contains(b.findings, f) { // the other half of a mirrored piece has it too
				b.findings = append(b.findings, f)
			}
		}
	}
}
