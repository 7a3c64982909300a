package pattern

import (
	"fmt"
	"maps"

	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// copyPlan is one of the shapes that a template repeats: its sizes, and how far
// its frame is moved. A template that repeats nothing has one without a name.
type copyPlan struct {
	name string
	env  template.Env
	move r3.Vec
}

// mostCopies is how often a shape may be repeated: more than there are fingers
// or toes (judgement).
const mostCopies = 20

// copies evaluates what the template repeats its shape for. Sizes of fingers
// and the like are asked for, never estimated: one that is not known is an error.
func (b *builder) copies() ([]copyPlan, error) {
	r := b.template.Repeat
	if r == nil {
		return []copyPlan{{}}, nil
	}
	if n := len(r.Copies); n > mostCopies {
		return nil, fmt.Errorf("its shape is repeated %d times; %d is the most", n, mostCopies)
	}
	var out []copyPlan
	for _, c := range r.Copies {
		e := evaluator{env: b.env}
		length, girth := e.num(c.Length), e.num(c.Girth)
		move := r3.Vec{X: e.num(c.X), Y: e.num(c.Y), Z: e.num(c.Z)}
		if e.err != nil {
			return nil, fmt.Errorf("%s %q: %w. Measure it: the sizes that a shape is repeated for are asked for, never estimated", r.As, c.Name, e.err)
		}
		if !(length > 0 && girth > 0) {
			return nil, wrong(c.Length, "%s %q would be %.3g mm long and %.3g mm round; both must be more than 0", r.As, c.Name, length, girth)
		}
		out = append(out, copyPlan{c.Name, template.Env{r.As + "_length": length, r.As + "_girth": girth}, move})
	}
	return out, nil
}

// onFirstOnly says what of a template its further copies do not have.
func (b *builder) onFirstOnly() {
	t := b.template
	if len(b.repeats) < 2 || len(t.Rims)+len(t.Openings)+len(t.Fastenings)+len(t.Marks)+len(t.Pads) == 0 {
		return
	}
	b.doubtf("its shape is repeated %d times, and its rims, openings, fastenings, marks and pads are on the first only. Write those that need them as pieces of their own, in %s.", len(b.repeats), t.File)
}

// cutShapes raises the template's shape, moved out by extra, once or for each of
// its copies, and cuts all of them into panels.
func (b *builder) cutShapes(extra float64) ([]*shape, *blanks, error) {
	var shapes []*shape
	cut := &blanks{}
	for _, c := range b.repeats {
		maps.Copy(b.env, c.env)
		s, err := b.shape(extra)
		if err == nil {
			err = b.cutShape(s, cut, c)
		}
		if err != nil && c.name != "" {
			err = fmt.Errorf("%s: %w", c.name, err)
		}
		if err != nil {
			return nil, nil, err
		}
		shapes = append(shapes, s)
	}
	maps.Copy(b.env, b.repeats[0].env)
	return shapes, cut, nil
}

// cutShape puts one shape's panels with those that are cut already.
func (b *builder) cutShape(s *shape, cut *blanks, c copyPlan) error {
	panels, seams := len(cut.panels), len(cut.seams)
	for _, shell := range s.shells {
		cutter, err := shell.cut(b.hinge)
		if err != nil {
			return err
		}
		cut.add(cutter)
	}
	for i := range cut.panels[panels:] {
		p := &cut.panels[panels+i]
		p.toPiece(s.pieceFromShell)
		p.enlarge(b.shrinkage())
		for j, v := range p.surf.Bent {
			p.surf.Bent[j] = r3.Add(v, c.move)
		}
		if c.name != "" {
			p.name = c.name + ", " + p.name
		}
	}
	for i := range cut.seams[seams:] {
		line := cut.seams[seams+i].line
		for j, p := range line {
			line[j] = r3.Add(s.pieceFromShell.Point(p), c.move)
		}
	}
	return nil
}
