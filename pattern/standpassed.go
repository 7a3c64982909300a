package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/body"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// A piece may pass parts of the body that it does not stand on: a gorget lies on
// the shoulders, a helmet's rim hangs over them. It takes no outline from them, but
// is kept clear of them by its ease; padding stands only on what bears the piece.
// Where it comes nearer, an open one stands farther out and up by what it lacks.

// pass notes the parts that a frame says to keep clear of, and makes their
// stations levels too.
func (s *stand) pass(f template.Frame, form *body.Form, side body.Side) error {
	for _, seg := range f.Clear {
		sides := []body.Side{body.Both}
		if limb(seg) {
			sides = []body.Side{body.Left, body.Right}
		}
		if limb(seg) && s.sided {
			sides = []body.Side{side}
		}
		for _, of := range sides {
			part, ok := form.Part(seg, of)
			if !ok {
				return fmt.Errorf("the template keeps clear of the %s, which the body form does not have", seg)
			}
			s.passed = append(s.passed, part)
			for _, at := range part.Stations {
				name := body.Name(at.Name).Ident()
				if _, known := s.levels[name]; !known {
					s.levels[name] = s.frame.Local(part.Frame.Point(part.Centre(at.Level))).Y
				}
			}
		}
	}
	return nil
}

// raise moves the stand up its axis; the body stays where it is.
func (s *stand) raise(up float64) {
	if up == 0 {
		return
	}
	s.frame.O = r3.Add(s.frame.O, r3.Scale(up, s.frame.Y))
	s.around.V = slices.Clone(s.around.V)
	for i := range s.around.V {
		s.around.V[i].Y -= up
	}
	s.low -= up
	s.raised += up
}

// tooLow is how far a piece must move out and up so that it comes no nearer to
// what it passes than was asked for: square to the foam that is nearest. What is
// closed above stands on its crown, and is not moved.
func (b *builder) tooLow(p *Piece) (out, up float64) {
	if b.template.Cap != nil || p.Passing >= near*p.PassAsked {
		return 0, 0
	}
	short := p.PassAsked - p.Passing
	return short * math.Sqrt(1-b.passes.Y*b.passes.Y), short * max(b.passes.Y, 0)
}

// judgePassing says if a piece comes too near to what it passes, or stands higher
// than it was drawn.
func (b *builder) judgePassing(p *Piece) {
	if up := b.stand.raised; up >= 1 {
		p.Notes = append(p.Notes, fmt.Sprintf("It stands %s higher than drawn, to keep clear of the %s.", units.FormatFine(up, p.Units), listedParts(b.stand.passed)))
	}
	if p.Passing >= held*p.PassAsked {
		return
	}
	b.doubtf("it comes within %s of the %s that it passes; %s were asked for.", units.FormatFine(p.Passing, p.Units), listedParts(b.stand.passed), units.FormatFine(p.PassAsked, p.Units))
}

func listedParts(parts []*body.Part) string {
	said := ""
	for _, s := range segmentsOf(parts) {
		if said != "" {
			said += " and "
		}
		said += string(s)
	}
	return said
}

func segmentsOf(parts []*body.Part) []body.Segment {
	var out []body.Segment
	for _, p := range parts {
		if !slices.Contains(out, p.Segment) {
			out = append(out, p.Segment)
		}
	}
	return out
}

// Parts are those of the body that the piece goes round and those that it
// passes: what its clearances are measured from. None of what is free or flat.
func (p *Piece) Parts() (around, passed []body.Segment) {
	if p.stood == nil {
		return nil, nil
	}
	return segmentsOf(p.stood.parts), segmentsOf(p.stood.passed)
}

// passStep (detail): places on the foam at most this far apart are held to what it
// passes; a shoulder rises by less than a tenth of a millimetre between two.
const passStep = 8.0

// passing is the least distance of the inner face from what the piece passes; it
// notes which way the foam looks there. A shoulder comes up anywhere below straight
// foam, not only where that is bent.
func (b *builder) passing(p *Piece) float64 {
	near := approach{parts: b.stand.passed, least: math.Inf(1)}
	for i := range p.Panels {
		if p.Panels[i].Role != OfShell {
			continue
		}
		m := p.Panels[i].Trimmed()
		for _, t := range m.T {
			corners := [3]r3.Vec{m.V[t[0]], m.V[t[1]], m.V[t[2]]}
			normal := normalOf(corners[0], corners[1], corners[2])
			inwards := r3.Scale(-p.K*p.Thickness, normal)
			spread(corners, passStep, func(at r3.Vec) {
				at = b.inBody(r3.Add(at, inwards))
				if near.passes(at) {
					return
				}
				if d := near.measure(at); d < near.least {
					near.least, b.passes = d, normal
				}
			})
		}
	}
	return near.least
}

// spread visits places of a triangle, corners and edges with it, that are no
// farther apart than a step.
func spread(t [3]r3.Vec, step float64, visit func(at r3.Vec)) {
	long := max(r3.Norm(r3.Sub(t[1], t[0])), r3.Norm(r3.Sub(t[2], t[1])), r3.Norm(r3.Sub(t[0], t[2])))
	n := max(int(math.Ceil(long/step)), 1)
	for i := range n + 1 {
		for j := range n + 1 - i {
			u, v := float64(i)/float64(n), float64(j)/float64(n)
			visit(r3.Add(r3.Scale(1-u-v, t[0]), r3.Add(r3.Scale(u, t[1]), r3.Scale(v, t[2]))))
		}
	}
}
