package fit

import (
	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bent takes a piece past another one that stands still, turned about an axis
// through the origin by share of up to full: the angle of the first contact, and
// what to take off the piece's rim.
func Bent(moving, still *pattern.Piece, axis r3.Vec, share, full float64) (angle, off float64, met bool) {
	h := &hinge{axis: axis, full: full}
	whole := func(p *pattern.Piece) *worn { return hold(*p, nil).worn(body.Both, false, 0, 0) }
	a, b := &carried{worn: whole(moving), share: share}, &carried{worn: whole(still)}
	if c := (&passage{h, a, &obstacle{other: b}}).run().cleared(); c != nil {
		return c.angle, max(c.off, 0), true
	}
	return 0, 0, false
}

// parts are all that takes part in movement.
func parts(set *pattern.Set) []*worn {
	var out []*worn
	for _, p := range set.Pieces {
		out = append(out, hold(p, nil).parts...)
	}
	return out
}

// Clashes are the findings on pieces that are in each other at rest.
func Clashes(set *pattern.Set) []report.Finding {
	var out []report.Finding
	for _, c := range clashes(parts(set), memory[two, *clash]{}.next()) {
		out = append(out, c.finding())
	}
	return out
}

// SightOf is what the wearer sees out of a piece.
func SightOf(p *pattern.Piece, form *body.Form) Sight {
	h := hold(*p, form)
	return headwear{h}.sight(form, geom.NewLocator(h.walls()))
}

// AirOf is what is open for breathing in a piece.
func AirOf(p *pattern.Piece, form *body.Form) Air {
	h := hold(*p, form)
	return headwear{h}.air(form)
}

// LamesTurn is how far each lame of a piece turns, in order from below, when a
// left joint has by angle.
func LamesTurn(p *pattern.Piece, form *body.Form, joint string, angle float64) []float64 {
	for _, h := range hinges(form) {
		if h.joint != joint || h.side == body.Right {
			continue
		}
		var out []float64
		for _, w := range parts(&pattern.Set{Pieces: []pattern.Piece{*p}}) {
			if c := h.carry(w); c != nil && w.lame > 0 && w.side != body.Right {
				out = append(out, c.turn(angle))
			}
		}
		return out
	}
	return nil
}

// Looked is how many questions about two parts a check had no answer to.
func (f *Fit) Looked() int {
	n := unknown(f.clashes)
	for _, m := range f.contacts {
		n += unknown(m)
	}
	return n
}

func unknown[Q comparable, A any](m memory[Q, A]) int {
	n := 0
	for q := range m.now {
		if _, known := m.before[q]; !known {
			n++
		}
	}
	return n
}
