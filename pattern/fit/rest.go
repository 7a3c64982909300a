package fit

import (
	"fmt"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// clash is where two pieces are in each other before anything moves.
type clash struct {
	a, b  *worn
	low   r3.Vec // the lowest and highest place of it, body axes
	high  r3.Vec
	cross bool // one passes through the other
}

// two parts that are held against each other.
type two struct{ a, b *worn }

// clashes finds the pieces whose foam is in the same place: one of each two.
func clashes(parts []*worn, known memory[two, *clash]) []clash {
	var found []clash
	told := map[[2]*pattern.Piece]bool{}
	for i, a := range parts {
		for _, b := range parts[i+1:] {
			both := [2]*pattern.Piece{a.piece, b.piece}
			mirrored := a.side == body.Right && b.side != body.Left && a.repeats() && b.repeats()
			if a.piece == b.piece && a.side == b.side || told[both] || mirrored || a.box().apart(b.box(), 0) {
				continue
			}
			if c := known.of(two{a, b}, func() *clash { return clashOf(a, b) }); c != nil {
				found, told[both] = append(found, *c), true
			}
		}
	}
	return found
}

// clashOf finds the triangles of one surface that pass through the other, and the
// faces of either that lie well in the foam of the other; nil if there are none.
func clashOf(a, b *worn) *clash {
	c := &clash{a: a, b: b}
	var at []r3.Vec
	for _, two := range [][2]*worn{{a, b}, {b, a}} {
		through := passing(two[0], two[1])
		c.cross = c.cross || len(through) > 0
		at = append(at, through...)
		at = append(at, sunk(two[0], two[1])...)
	}
	if len(at) == 0 {
		return nil
	}
	c.low, c.high = at[0], at[0]
	for _, p := range at {
		if p.Y < c.low.Y {
			c.low = p
		}
		if p.Y > c.high.Y {
			c.high = p
		}
	}
	return c
}

// passing are places where the sides of a surface's triangles go through
// another surface.
func passing(a, b *worn) []r3.Vec {
	m, other, walls := a.mesh(), b.box(), b.surface()
	var out []r3.Vec
	for _, t := range m.T {
		if boxOver(m.V[t[0]], m.V[t[1]], m.V[t[2]]).apart(other, 0) {
			continue
		}
		for k := range 3 {
			p, q := m.V[t[k]], m.V[t[(k+1)%3]]
			if boxOver(p, q, q).apart(other, 0) {
				continue
			}
			if s, _, hit := walls.HitWithin(p, r3.Sub(q, p), 1); hit {
				out = append(out, geom.Lerp(p, q, s))
			}
		}
	}
	return out
}

// boxOver is the box round three places.
func boxOver(a, b, c r3.Vec) box {
	return box{r3.Vec{X: min(a.X, b.X, c.X), Y: min(a.Y, b.Y, c.Y), Z: min(a.Z, b.Z, c.Z)},
		r3.Vec{X: max(a.X, b.X, c.X), Y: max(a.Y, b.Y, c.Y), Z: max(a.Z, b.Z, c.Z)}}
}

// sunk are places of a piece whose middle or one of whose faces is deep in another one's
// foam: by more than foam that is pressed gives (judgement).
func sunk(a, b *worn) []r3.Vec {
	const gives = 0.3 // of the other one's thickness, which leaves places that touch or dent each other a little
	half := b.piece.Thickness / 2
	var out []r3.Vec
	last := -1
	for _, pt := range a.points() {
		faces := a.thick(pt)
		for _, q := range []r3.Vec{pt.at, faces[0], faces[1]} {
			if b.surface().Away(q) > half {
				continue
			}
			var n r3.Vec
			if last, n = b.surface().NearestFrom(q, last); half-geom.Dist(q, n) > gives*b.piece.Thickness {
				out = append(out, q)
				break
			}
		}
	}
	return out
}

func (c *clash) finding() report.Finding {
	how, p := "lies in the foam of", c.a.piece
	if c.cross {
		how = "passes through"
	}
	other := "the " + c.b.piece.Name
	if c.b.piece == p {
		other = "the one on the other side"
	}
	where := "at about " + units.Format(c.low.Y, p.Units) + " over the floor"
	if c.high.Y-c.low.Y > apart {
		where = fmt.Sprintf("between about %s and %s over the floor", units.Format(c.low.Y, p.Units), units.Format(c.high.Y, p.Units))
	}
	f := report.Finding{Level: report.Doubt, Subject: p.Name,
		Said:    fmt.Sprintf("it %s %s %s, before anything moves.", how, other, where),
		Perhaps: "Let the one that lies outside stand off further there, by its ease or its gap, or end one of them before the other begins."}
	if arm := c.arm(); arm != nil {
		f.Level, f.Subject = report.Note, arm.Name
		f.Said = fmt.Sprintf("with the arm hanging straight down it %s the %s %s.", how, c.beside(arm).Name, where)
		f.Perhaps = "The wearer holds the arm out by so much, or the other ends higher or lies closer there."
	}
	if c.set() {
		f.Level, f.Perhaps = report.Note, "Cut the one that goes round no part of the body to the curve of the other, where they meet."
	}
	if c.alternative() {
		f.Level, f.Perhaps = report.Note, "Wear one or the other: they are judged apart."
	}
	return f
}

// arm is the piece of a clash that is worn from the elbow down, where the other
// is not worn on an arm: arms need not hang straight down.
func (c *clash) arm() *pattern.Piece {
	on := func(p *pattern.Piece) bool {
		return p.Segment == body.UpperArm || p.Segment == body.Forearm || p.Segment == body.Hand || p.Joint == "elbow" || p.Joint == "wrist" || p.Joint == "shoulder"
	}
	low := func(p *pattern.Piece) bool { return on(p) && p.Segment != body.UpperArm && p.Joint != "shoulder" }
	switch a, b := c.a.piece, c.b.piece; {
	case low(a) && !on(b):
		return a
	case low(b) && !on(a):
		return b
	}
	return nil
}

// beside is the other piece of a clash.
func (c *clash) beside(p *pattern.Piece) *pattern.Piece {
	if c.a.piece == p {
		return c.b.piece
	}
	return c.a.piece
}

// inEachOther tells whether two pieces are in each other at rest.
func inEachOther(met []clash, p, q *pattern.Piece) bool {
	for _, c := range met {
		if c.a.piece == p && c.b.piece == q || c.a.piece == q && c.b.piece == p {
			return true
		}
	}
	return false
}
