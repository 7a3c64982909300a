package fit

import (
	"slices"
	"sync"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
)

// contacts takes every piece through every turn of the joints next to it and
// gives the first contact of each pair, in the order of the turns.
func contacts(set *pattern.Set, form *body.Form) []contact {
	all := hinges(form)
	met := make([][]contact, len(all))
	surfaces := surfacesOf(set)
	var done sync.WaitGroup
	for i, h := range all {
		done.Go(func() { met[i] = h.contacts(set, form, surfaces) })
	}
	done.Wait()
	return slices.Concat(met...)
}

// contacts takes the pieces on either side of a joint past the other side.
func (h *hinge) contacts(set *pattern.Set, form *body.Form, surfaces surfaces) []contact {
	still, moving := h.worn(set, h.still), h.worn(set, h.moving)
	var met []contact
	for _, w := range moving {
		met = append(met, h.past(w, 1, h.flesh(form, h.still), still, surfaces)...)
	}
	for _, w := range still {
		met = append(met, h.past(w, -1, h.flesh(form, h.moving), moving, surfaces)...)
	}
	return earliest(met)
}

// surfaces are the neutral surfaces of pieces, made when first asked for.
type surfaces map[worn]func() *geom.Locator

func surfacesOf(set *pattern.Set) surfaces {
	out := surfaces{}
	for i := range set.Pieces {
		for _, mirror := range []bool{false, true} {
			w := worn{&set.Pieces[i], mirror}
			out[w] = sync.OnceValue(func() *geom.Locator { return geom.NewLocator(w.mesh()) })
		}
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

func (h *hinge) worn(set *pattern.Set, segs []body.Segment) []worn {
	var out []worn
	for _, p := range h.places(segs) {
		out = append(out, wornOn(set, p.segment, p.side)...)
	}
	return out
}

func (h *hinge) flesh(form *body.Form, segs []body.Segment) []obstacle {
	if h.noFlesh {
		return nil
	}
	var out []obstacle
	for _, p := range h.places(segs) {
		if part, ok := form.Part(p.segment, p.side); ok {
			out = append(out, obstacle{part: part})
		}
	}
	return out
}

// past takes one piece past flesh and pieces. The right one of a pair moves as
// the left one does, so that it is only held against pieces of the right alone.
func (h *hinge) past(w worn, sense float64, obstacles []obstacle, others []worn, surfaces surfaces) []contact {
	if w.mirror {
		obstacles = nil
	}
	for _, o := range others {
		if w.mirror && o.mirror {
			continue
		}
		obstacles = append(obstacles, obstacle{other: o, mesh: surfaces[o]()})
	}
	var out []contact
	for i := range obstacles {
		p := passage{hinge: h, piece: w, sense: sense, obstacle: &obstacles[i]}
		if c, met := p.run(); met {
			out = append(out, c)
		}
	}
	return out
}

// earliest keeps one contact of each two pieces: that of the rim which meets the
// other first.
func earliest(met []contact) []contact {
	var out []contact
	for i, c := range met {
		first := true
		for j, d := range met {
			if c.obstacle.part == nil && d.obstacle.part == nil && d.piece == c.obstacle.other && d.obstacle.other == c.piece &&
				(d.angle < c.angle || d.angle == c.angle && j < i) {
				first = false
			}
		}
		if first {
			out = append(out, c)
		}
	}
	return out
}
