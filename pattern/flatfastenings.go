package pattern

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

// clothNote tells a maker what the hinge between two flat parts is made of, and notes
// its cloth.
func (p *Piece) clothNote(s Seam, labels [2]string) string {
	n := p.Panels[s.Spans[0].Sides[0].Panel].Copies
	p.Sheets = append(p.Sheets, Sheet{Name: fmt.Sprintf("cloth of hinge %d", s.Number), Of: "strong cloth", Count: n, Long: s.Length, Broad: 2 * clothHalf})
	return fmt.Sprintf("Hinge %d: %s and %s are not glued to each other. Hold them closed, and glue a strip of strong cloth over the seam on the outside, up to the line marked on either: cut %d of %s by %s. They have no template.",
		s.Number, labels[0], labels[1], n, units.Format(s.Length, p.Units), units.Format(2*clothHalf, p.Units))
}

// fastenFlats marks both parts of what holds one flat part on another.
func (b *builder) fastenFlats(p *Piece) error {
	e := evaluator{env: b.env}
	for _, f := range b.template.Fastenings {
		if f.On == "" || !e.on(f.When) {
			continue
		}
		on, part := p.flatNamed(f.On), p.flatNamed(f.Part)
		if on < 0 || part < 0 {
			continue
		}
		if err := b.fastenFlat(&e, p, f, on, part); err != nil {
			return fmt.Errorf("%s:%d: the %s: %w", b.template.File, f.Line, f.Kind, err)
		}
	}
	return e.err
}

func (b *builder) fastenFlat(e *evaluator, p *Piece, f template.Fastening, on, part int) error {
	q := r2.Vec{X: e.num(f.X), Y: e.num(f.Y)}
	each := e.fastened(f, p.stands.count+1)
	if e.err != nil {
		return e.err
	}
	under, over := &p.Panels[on], &p.Panels[part]
	if flat := b.flatOf(f.On); facingOf(flat.Facing).flipped {
		q.X = -q.X
	}
	from := under.Surface.Lift(q)
	end := partEnd{fastened: each, onto: under.Label, from: from, dir: under.Surface.normal(0)}
	if !geom.Inside(under.Outline, q) || !over.take(end) {
		return fmt.Errorf("its place on the flat part %q, x %.4g mm and y %.4g mm, is not below %q; change them so that it is", f.On, e.num(f.X), e.num(f.Y), f.Part)
	}
	p.stands.count++
	one, _ := each.ends()
	under.Marks = append(under.Marks, Mark{Kind: "fastening", Close: true, Line: around(q, each.w, each.h, true), Text: one})
	return nil
}

// flatOf is the flat part of a name as the template has it: the one that is there.
func (b *builder) flatOf(name string) template.Flat {
	e := evaluator{env: b.env}
	for _, f := range b.template.Flats {
		if f.Name == name && e.on(f.When) {
			return f
		}
	}
	return template.Flat{}
}
