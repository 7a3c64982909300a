package fit

import (
	"slices"
	"sync"

	"tasset/body"
)

// meets is a part and what it may meet as a joint turns.
type meets struct {
	part  *worn
	other *worn      // nil: flesh
	flesh *body.Part // nil: a part of another piece
	moves bool       // the flesh does
}

// contacts takes every piece through every turn of the joints that move it and
// gives the first contact of each two parts, in the order of the turns.
func contacts(parts []*worn, form *body.Form, hinges []hinge, known []memory[meets, *contact]) []contact {
	met := make([][]contact, len(hinges))
	var done sync.WaitGroup
	for i := range hinges {
		h := &hinges[i]
		done.Go(func() { met[i] = h.contacts(form, h.carriedBy(parts), known[i]) })
	}
	done.Wait()
	return slices.Concat(met...)
}

// contacts are those at one joint: each piece with the flesh next to it, and
// each two pieces that turn differently. Two pieces keep one contact, of the one
// that meets the other first.
func (h *hinge) contacts(form *body.Form, parts []*carried, known memory[meets, *contact]) []contact {
	var met []contact
	keep := func(m meets, look func() *contact) {
		if c := known.of(m, look); c != nil {
			met = append(met, *c)
		}
	}
	for i, a := range parts {
		for _, o := range h.flesh(form, a) {
			keep(meets{part: a.worn, flesh: o.flesh, moves: o.moving}, func() *contact { return (&passage{h, a, &o}).run().cleared() })
		}
		for _, b := range parts[i+1:] {
			if h.mayHinder(a, b) {
				keep(meets{part: a.worn, other: b.worn}, func() *contact { return h.between(a, b).cleared() })
			}
		}
	}
	return met
}

// between is the contact of two parts, of the one that meets the other first; nil if
// they pass.
func (h *hinge) between(a, b *carried) *contact {
	first := (&passage{h, a, &obstacle{other: b}}).run()
	second := (&passage{h, b, &obstacle{other: a}}).run()
	if second != nil && (first == nil || second.angle < first.angle) {
		return second
	}
	return first
}

// mayHinder tells whether two parts are held against each other: those of one
// piece are made to lie over each other, and what turns alike does not meet. A
// right joint tells nothing new of what the left one has as its mirror image.
func (h *hinge) mayHinder(a, b *carried) bool {
	one := a.piece == b.piece && a.side == b.side
	return !one && !a.sameAs(b) && !(h.side == body.Right && a.repeats() && b.repeats())
}

// repeats tells whether the part stands on both sides of the body alike.
func (w *worn) repeats() bool {
	return w.piece.Mirror && w.side == body.Both || w.piece.Copies == 2 && w.piece.Side == body.Both
}

// flesh is what a part may press into: that of the segments at the joint, on the
// other side of it. Of a pair, the left one is looked at.
func (h *hinge) flesh(form *body.Form, c *carried) []obstacle {
	if h.noFlesh || c.mirror || c.side == body.Both && h.side == body.Right && c.repeats() {
		return nil
	}
	var out []obstacle
	add := func(segs []body.Segment, moving bool) {
		for _, p := range h.places(segs) {
			if part, ok := form.Part(p.segment, p.side); ok {
				out = append(out, obstacle{flesh: part, moving: moving})
			}
		}
	}
	floats := c.piece.Joint == h.joint
	if floats || c.moving && c.piece.Segment == beyond[h.joint][0] {
		add(h.still, false)
	}
	if floats || !c.moving && (slices.Contains(h.still, c.piece.Segment) || c.piece.Segment == body.Neck) {
		add(h.meeting.moving, true)
	}
	return out
}

// place is a segment of one side.
type place struct {
	segment body.Segment
	side    body.Side
}

// places are the segments of one side of the joint; both upper arms of the neck.
func (h *hinge) places(segs []body.Segment) []place {
	var out []place
	for _, seg := range segs {
		switch {
		case seg == body.Torso || seg == body.Head:
			out = append(out, place{seg, body.Both})
		case h.side == body.Both:
			out = append(out, place{seg, body.Left}, place{seg, body.Right})
		default:
			out = append(out, place{seg, h.side})
		}
	}
	return out
}
