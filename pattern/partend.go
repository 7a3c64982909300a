package pattern

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// partEnd is the other part of a fastening that is on a flat part of the piece, where
// a ray from the axis meets it.
type partEnd struct {
	fastened
	onto      string // label of the panel that it is fastened to
	from, dir r3.Vec // piece axes
}

// notePart notes a fastening whose other part is on a flat part, which is made later.
func (b *builder) notePart(p *Piece, s *shape, f fastened, angle, level float64, onto string) {
	from, dir, _ := b.ray(s, angle, level, anyLame)
	p.stands.parts = append(p.stands.parts, partEnd{fastened: f, onto: onto, from: from, dir: dir})
}

// endsOn marks on a flat part what is fastened to it: on the face that lies on the
// piece.
func (p *Piece) endsOn(panel *Panel) {
	for _, e := range p.stands.parts {
		if e.part == panel.Name {
			panel.take(e)
		}
	}
}

// take marks the other part of a fastening on a flat part, if that lies over it.
func (panel *Panel) take(e partEnd) bool {
	q, ok := panel.pierced(e.from, e.dir)
	if !ok { // it may show its inner face to the piece
		q, ok = panel.pierced(r3.Add(e.from, r3.Scale(farthest, e.dir)), r3.Scale(-1, e.dir))
		ok = ok && r3.Dot(r3.Sub(panel.Surface.Lift(q), e.from), e.dir) > 0
	}
	if !ok {
		return false
	}
	_, other := e.ends()
	if e.kind == "hook-and-loop" {
		other = fmt.Sprintf("%s %d, loops", e.name, e.number)
	}
	panel.Marks = append(panel.Marks, Mark{Kind: "fastening", Close: true, Line: around(q, e.w, e.h, true), Text: other + ", on the face to " + e.onto})
	return true
}

// justInside is how far inside the body a place on its skin is taken, mm, so that a
// section through it has it inside.
const justInside = 3.0

// byWay is the place on the body by way of which a strap goes, body axes: the outermost
// one at an angle and a level; nil if the template names none.
func (b *builder) byWay(e *evaluator, s *shape, f template.Fastening) *r3.Vec {
	if !f.ByAngle.Set() {
		return nil
	}
	angle, level := e.num(f.ByAngle), e.num(f.ByLevel)
	if b.template.Frame.Axis == "across" {
		level = -level
	}
	dir := s.pieceFromShell.Dir(shellVec(direction(angle), 0))
	far := r3.Add(s.pieceFromShell.Point(r3.Vec{Y: level}), r3.Scale(mostGirth, dir))
	t, _, ok := geom.NewLocator(b.stand.around).Hit(far, r3.Scale(-1, dir))
	if !ok {
		return nil
	}
	at := b.stand.frame.Point(r3.Add(far, r3.Scale(-t, dir)))
	return &at
}
