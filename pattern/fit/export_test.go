package fit

import (
	"math"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bent takes a piece past another one that stands still, turned about an axis
// through the origin by share of up to full: the angle of the first contact, and
// what to take off the piece's rim.
func Bent(moving, still *pattern.Piece, axis r3.Vec, share, full float64) (angle, off float64, met bool) {
	h := &hinge{axis: axis, full: full}
	a, b := &carried{worn: newWorn(moving, body.Both, false, 0, 0), share: share}, &carried{worn: newWorn(still, body.Both, false, 0, 0)}
	c, met := (&passage{h, a, &obstacle{other: b}}).run()
	if met {
		c.takeOff()
	}
	return c.angle, math.Max(c.off, 0), met
}

// Clashes are the findings on pieces that are in each other at rest.
func Clashes(set *pattern.Set) []report.Finding {
	var out []report.Finding
	for _, c := range clashes(suit(set)) {
		out = append(out, c.finding())
	}
	return out
}

// LamesTurn is how far each lame of a piece turns, in order from below, when a
// left joint has by angle.
func LamesTurn(p *pattern.Piece, form *body.Form, joint string, angle float64) []float64 {
	for _, h := range hinges(form) {
		if h.joint != joint || h.side == body.Right {
			continue
		}
		var out []float64
		for _, w := range suit(&pattern.Set{Pieces: []pattern.Piece{*p}}) {
			if c := h.carry(w); c != nil && w.lame > 0 && w.side != body.Right {
				out = append(out, c.turn(angle))
			}
		}
		return out
	}
	return nil
}
