package pattern

import (
	"cmp"
	"slices"
	"sync"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Of patches that are glued on (judgement).
const (
	farthestPatch = 60.0 // how far one is moved at most off what is fastened there already, mm
	patchStep     = 2.0  // in steps of
	littleShared  = 1.0  // how deep two may lie over each other, mm
	littleBehind  = 8.0  // how deep a short one may lie on the place of a lame behind, mm
	littleMore    = 0.02 // of it must come to lie on the panel for a move further
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
	cover, others := p.cover(), boxedAll(taken)
	best, least := ts, p.overBehind(ts)
	for _, m := range patchMoves() {
		if c := shifted(ts, m); r2.Norm(m) <= farthestPatch/2 && cover.holds(c[0], 1) && cover.holds(c[len(c)-1], 1) && allClear(c, others.meeting(c)) {
			if d := p.overBehind(c); d < least-geom.Detail {
				best, least = c, d
			}
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

// frame are the unit vectors of a patch's own way: of a pair, towards the other.
func frame(ts []patch) (u, v r2.Vec) {
	u = r2.Vec{X: 1}
	if len(ts) == 2 {
		if d := r2.Sub(ts[1].at, ts[0].at); r2.Norm(d) > geom.Detail {
			u = r2.Unit(d)
		}
	}
	return u, quarterTurn(u)
}

// offset is how far patch i was moved in the frame of those that were asked for:
// towards its fellow, and across.
func offset(asked, moved []patch, i int) r2.Vec {
	u, v := frame(asked)
	d := r2.Sub(moved[i].at, asked[i].at)
	along := r2.Dot(d, u)
	if i == 1 {
		along = -along
	}
	return r2.Vec{X: along, Y: r2.Dot(d, v)}
}

// shifted moves patches by an offset, both of a pair alike.
func shifted(ts []patch, by r2.Vec) []patch {
	u, v := frame(ts)
	out := slices.Clone(ts)
	for i := range out {
		out[i].at = r2.Add(out[i].at, r2.Add(r2.Scale(by.X, u), r2.Scale(by.Y, v)))
		by.X = -by.X
	}
	return out
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
	others := boxedAll(taken)
	for _, m := range patchMoves() {
		c := shifted(ts, m)
		asMuch := func(i int) bool { return cover.holds(c[i], on[i]) }
		if allClear(c, others.meeting(c)) && asMuch(0) && asMuch(len(c)-1) {
			return c
		}
	}
	return ts
}

// patchMoves are moves in steps up to the farthest, the least first.
var patchMoves = sync.OnceValue(func() (out []r2.Vec) {
	steps := int(farthestPatch / patchStep)
	for i := -steps; i <= steps; i++ {
		for j := -steps; j <= steps; j++ {
			if m := (r2.Vec{X: patchStep * float64(i), Y: patchStep * float64(j)}); r2.Norm(m) <= farthestPatch {
				out = append(out, m)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b r2.Vec) int { return cmp.Compare(r2.Norm2(a), r2.Norm2(b)) })
	return out
})
