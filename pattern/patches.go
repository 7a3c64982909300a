package pattern

import (
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Of patches that are glued on (judgement).
const (
	littleShared = 1.0  // how deep two may lie over each other, mm
	littleBehind = 8.0  // how deep a short one may lie on the place of a lame behind, mm
	littleMore   = 0.02 // of it must come to lie on the panel for a move further
)

// patch is where one end of a strap is glued, on the flat panel: along the strap,
// with the anchor in its middle.
type patch struct {
	at, along  r2.Vec // along is a unit vector
	wide, long float64
}

// patch is the patch of one end of a strap at a place; where the strap's way is not
// known it has room for any.
func (f *fastened) patch(at, along r2.Vec) patch {
	if along == (r2.Vec{}) {
		return patch{at: at, along: r2.Vec{X: 1}, wide: f.h, long: f.h}
	}
	return patch{at: at, along: along, wide: f.w, long: f.h}
}

func (t patch) outline() []r2.Vec {
	x, y := r2.Scale(t.long/2, t.along), r2.Scale(t.wide/2, quarterTurn(t.along))
	return []r2.Vec{r2.Sub(r2.Sub(t.at, x), y), r2.Sub(r2.Add(t.at, x), y), r2.Add(r2.Add(t.at, x), y), r2.Add(r2.Sub(t.at, x), y)}
}

// axis is the patch's middle line, or only the anchor where the strap's way is not
// known.
func (t patch) axis() []r2.Vec {
	if t.long == t.wide {
		return []r2.Vec{t.at}
	}
	x := r2.Scale(t.long/2, t.along)
	return []r2.Vec{r2.Sub(t.at, x), r2.Add(t.at, x)}
}

// settle moves the patches of a fastening inside the panel's rims, and by the least
// that brings them off what is fastened there already; where that takes too much
// they stay. The two of a pair that mirror each other are moved alike.
func (p *Panel) settle(asked []patch, taken [][]r2.Vec) []patch {
	if len(asked) == 2 {
		if both, ok := p.bothInside(asked); ok {
			return p.leastMove(both, taken)
		}
		first := p.settle(asked[:1], taken)
		return append(first, p.settle(asked[1:], append(slices.Clip(taken), first[0].outline()))...)
	}
	return p.leastMove([]patch{p.inside(asked[0])}, taken)
}

// shorter are the shares of a whole patch's length that are tried where a lame on the
// inner face leaves no room for it (judgement).
var shorter = []float64{0.8, 0.65, 0.5, 0.4, 0.32}

// settleShort is settle on a panel that has a lame on its inner face: patches that
// find no place off it are cut shorter along the strap; without one they stay.
func (p *Panel) settleShort(asked []patch, taken [][]r2.Vec) []patch {
	all := append(slices.Clip(taken), p.behind...)
	whole := p.settle(asked, all)
	if allClear(whole, all) {
		return whole
	}
	if len(p.behind) == 0 || asked[0].long == asked[0].wide { // its way is not known
		return p.settle(asked, taken)
	}
	short := slices.Clone(asked)
	for _, share := range shorter {
		for i, t := range asked {
			if short[i].long = min(share*(t.wide+patchMargin), t.long); short[i].long == t.wide {
				short[i].long++ // as long as wide is one whose way is not known
			}
		}
		if c := p.settle(short, all); allClear(c, all) {
			return c
		}
	}
	if c := p.leastBehind(p.settle(short, taken), taken); p.overBehind(c) <= littleBehind {
		return c
	}
	return p.settle(asked, taken)
}

// leastBehind is where patches lie least on the place of a lame on the inner face.
func (p *Panel) leastBehind(ts []patch, taken [][]r2.Vec) []patch {
	cover := p.cover()
	best, least := ts, p.overBehind(ts)
	for c := range clearMoves(ts, taken, farthestPatch/2) {
		if d := p.overBehind(c); d < least-geom.Detail && cover.holds(c[0], 1) && cover.holds(c[len(c)-1], 1) {
			best, least = c, d
		}
	}
	return best
}

// overBehind is how deep patches lie on the place of a lame on the inner face, mm.
func (p *Panel) overBehind(ts []patch) (deep float64) {
	for _, t := range ts {
		ring := t.outline()
		for _, o := range p.behind {
			deep = max(deep, depth(ring, o))
		}
	}
	return deep
}

// leastMove is where patches come off what is taken by the least move that leaves as
// much of them on the foam; without one they stay.
func (p *Panel) leastMove(ts []patch, taken [][]r2.Vec) []patch {
	if allClear(ts, taken) {
		return ts
	}
	cover := p.cover()
	var on []float64
	for _, t := range ts {
		on = append(on, cover.under(t))
	}
	for c := range clearMoves(ts, taken, farthestPatch) {
		if cover.holds(c[0], on[0]) && cover.holds(c[len(c)-1], on[len(c)-1]) {
			return c
		}
	}
	return ts
}
