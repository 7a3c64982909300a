package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// offTheEdges moves the middle of a patch inwards, until the patch lies inside every
// free edge by an inset and keeps off the seams, as far as the panel has room.
func (p *Panel) offTheEdges(t patch, inset float64) r2.Vec {
	for range 4 { // edges that meet in a corner
		by := p.short(t, inset)
		if by == (r2.Vec{}) || !p.Covers(r2.Add(t.at, by)) {
			break
		}
		t.at = r2.Add(t.at, by)
	}
	return t.at
}

// short is the move that a patch is short of most, to lie inside one of the edges by
// an inset.
func (p *Panel) short(t patch, inset float64) (by r2.Vec) {
	most := geom.Coincident
	for _, e := range p.Edges {
		clear := inset
		if e.Kind == Butt {
			clear = min(inset, offSeam)
		}
		if e.Kind == Hinge {
			continue
		}
		for i := 0; i+1 < len(e.Line); i++ {
			near, away := p.inFrom(t.at, e.Line[i], e.Line[i+1])
			room := clear + t.long/2*math.Abs(r2.Dot(away, t.along)) + t.wide/2*math.Abs(r2.Cross(away, t.along))
			if d := r2.Dot(r2.Sub(t.at, near), away); away != (r2.Vec{}) && room-d > most {
				most, by = room-d, r2.Scale(room-d, away)
			}
		}
	}
	return by
}

// offSeam is how far a patch that is glued on stays off a seam, mm (judgement).
const offSeam = 2.0

// inFrom is the nearest place to q of an edge's segment and the unit way from
// there into the panel: to q, or of one that lies on the segment, square to it.
func (p *Panel) inFrom(q, a, b r2.Vec) (near, away r2.Vec) {
	near, _ = geom.NearestOnSegment(q, a, b)
	if d := geom.Dist(q, near); d > geom.Detail {
		return near, r2.Scale(1/d, r2.Sub(q, near))
	}
	if geom.Dist(a, b) < geom.Coincident {
		return near, r2.Vec{}
	}
	return near, quarterTurn(r2.Unit(r2.Sub(b, a)))
}

// insets are how far patches are set off the rims, as far as a panel has room.
var insets = []float64{fasteningInset, fasteningInset / 2, offSeam}

// bothInside moves the patches of a pair alike inside the rims; ok is false on a
// panel that is too uneven for that.
func (p *Panel) bothInside(asked []patch) (out []patch, ok bool) {
	for _, inset := range insets {
		moved := slices.Clone(asked)
		for i := range moved {
			moved[i].at = p.offTheEdges(moved[i], inset)
		}
		for i := range moved {
			c := shifted(asked, offset(asked, moved, i))
			if p.keepsOff(c[0], inset/2, 1+inset/4) && p.keepsOff(c[1], inset/2, 1+inset/4) && allClear(c, nil) {
				return c, true
			}
		}
	}
	return asked, false
}

// inside moves a patch inside the rims; of a panel without room, to where most of it
// lies on the panel.
func (p *Panel) inside(t patch) patch {
	cover := p.cover()
	best, most := t, cover.under(t)
	for _, inset := range insets {
		c := t
		c.at = p.offTheEdges(t, inset)
		if p.keepsOff(c, inset, 1) {
			return c
		}
		if on := cover.under(c); on > most {
			best, most = c, on
		}
	}
	if most < 1 { // in a corner or a neck the rims push it to and fro
		for _, m := range patchMoves() {
			c := shifted([]patch{t}, m)[0]
			switch {
			case r2.Norm(m) > farthestPatch/2:
				return best
			case !slices.ContainsFunc(c.outline(), cover.off) && cover.holds(c, 1):
				return c
			case cover.holds(c, most+littleMore):
				best, most = c, cover.under(c)
			}
		}
	}
	return best
}

// keepsOff tells whether a patch lies inside the rims by an inset, but for a little.
func (p *Panel) keepsOff(t patch, inset, little float64) bool {
	return r2.Norm(p.short(t, inset)) < little
}
