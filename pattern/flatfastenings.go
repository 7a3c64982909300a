package pattern

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
)

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
	q := b.onFlat(f.On, e.num(f.X), e.num(f.Y))
	each := e.fastened(f, p.stands.count+1)
	if e.err != nil {
		return e.err
	}
	under, over := &p.Panels[on], &p.Panels[part]
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

// onFlat is the place on a flat part's panel that its points would give as (x, y).
func (b *builder) onFlat(name string, x, y float64) r2.Vec {
	if facingOf(b.flatOf(name).Facing).flipped {
		x = -x
	}
	return r2.Vec{X: x, Y: y}
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
