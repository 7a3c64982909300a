package nest

import (
	"context"
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Pack lays parts on as many equal sheets as they need, at least gap apart
// from each other and from what is blocked (mm; the border of the sheet may be
// touched). Larger parts go first, each to the lowest and then leftmost place of
// the first sheet that has one. One pass; nothing is moved again. Parts never
// overlap: each takes all squares of side Pixel that it enters once grown by
// half the gap.
//
// Places come in the order of the parts. It is an error when an outline has no
// area or a size is not a length, and when ctx ends.
func Pack(ctx context.Context, parts []Part, sheet Sheet, gap float64, blocked ...Blocked) ([]Place, error) {
	if err := check(parts, sheet, gap, blocked); err != nil {
		return nil, err
	}
	p := packing{sheet: sheet, grow: gap / 2}
	for _, b := range blocked {
		p.block(b)
	}
	places := make([]Place, len(parts))
	for _, i := range bySize(parts) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		places[i] = p.lay(parts[i])
	}
	return places, nil
}

// bySize is the order in which parts are laid: by area, largest first, and
// equal ones as they came.
func bySize(parts []Part) []int {
	order := make([]int, len(parts))
	area := make([]float64, len(parts))
	for i, p := range parts {
		order[i] = i
		area[i] = math.Round(math.Abs(geom.Area(p.Outline)) * 1000)
	}
	sort.SliceStable(order, func(a, b int) bool { return area[order[a]] > area[order[b]] })
	return order
}

// packing is the sheets as they fill.
type packing struct {
	sheet Sheet
	grow  float64
	grids []*grid
}

// newGrid is an empty sheet. Parts are grown, so the grid begins and ends by as
// much outside the sheet.
func (p *packing) newGrid() *grid {
	return &grid{width: int(math.Ceil((p.sheet.Width + 2*p.grow) / Pixel))}
}

// room is how many pixels a box can be moved across and up on an empty sheet;
// negative when it does not fit.
func (p *packing) room(box r2.Box) (x, y int) {
	steps := func(free float64) int { return int(math.Floor((free + touch/2) / Pixel)) }
	size := box.Size()
	y = math.MaxInt
	if p.sheet.Height > 0 {
		y = steps(p.sheet.Height - size.Y)
	}
	return steps(p.sheet.Width - size.X), y
}

// block takes an outline's pixels.
func (p *packing) block(b Blocked) {
	for len(p.grids) <= b.Sheet {
		p.grids = append(p.grids, p.newGrid())
	}
	p.grids[b.Sheet].take(newMask(b.Outline, p.grow, r2.Vec{X: -p.grow, Y: -p.grow}), 0, 0)
}

// lay puts a part onto the first sheet that has room for it.
func (p *packing) lay(part Part) Place {
	turned := turns(part, p.grow)
	for k := 0; k <= len(p.grids); k++ {
		if k == len(p.grids) {
			p.grids = append(p.grids, p.newGrid())
		}
		if place, ok := p.layOn(k, turned); ok {
			return place
		}
		if empty := len(p.grids[k].rows) == 0; empty {
			return Place{} // an empty sheet has no room
		}
	}
	panic("nest: the last sheet is empty")
}

// turnedMask is a part's mask at one of its angles.
type turnedMask struct {
	angle float64
	mask
}

// turns makes a part's masks.
func turns(part Part, grow float64) []turnedMask {
	angles := part.Turns
	if len(angles) == 0 {
		angles = []float64{0}
	}
	var out []turnedMask
	for _, a := range angles {
		outline := geom.Turned(a, r2.Vec{}).ApplyAll(part.Outline)
		corner := r2.Sub(geom.Bounds(outline).Min, r2.Vec{X: grow, Y: grow})
		out = append(out, turnedMask{angle: a, mask: newMask(outline, grow, corner)})
	}
	return out
}

// layOn puts a part onto a sheet at the angle whose top edge comes to lie
// lowest.
func (p *packing) layOn(k int, turned []turnedMask) (Place, bool) {
	g := p.grids[k]
	var best turnedMask
	bestX, bestY, bestTop := 0, 0, math.MaxInt
	for _, t := range turned {
		maxX, maxY := p.room(t.box)
		x, y, ok := g.lowest(t.mask, maxX, maxY)
		if top := y + len(t.rows); ok && (top < bestTop || top == bestTop && x < bestX) {
			best, bestX, bestY, bestTop = t, x, y, top
		}
	}
	if bestTop == math.MaxInt {
		return Place{}, false
	}
	g.take(best.mask, bestX, bestY)
	corner := r2.Vec{X: float64(bestX) * Pixel, Y: float64(bestY) * Pixel}
	return Place{Sheet: k, Turn: best.angle, Shift: r2.Sub(corner, best.box.Min), OK: true}, true
}

func check(parts []Part, sheet Sheet, gap float64, blocked []Blocked) error {
	if !(sheet.Width > 0) || math.IsInf(sheet.Width, 1) || !(sheet.Height >= 0) || math.IsInf(sheet.Height, 1) {
		return fmt.Errorf("laying parts: the sheet is %g × %g mm; it needs a width above 0, and a height above 0 or 0 for a roll", sheet.Width, sheet.Height)
	}
	if !(gap >= 0) || math.IsInf(gap, 1) {
		return fmt.Errorf("laying parts: the gap is %g mm; it must be 0 or more", gap)
	}
	for i, p := range parts {
		if a := math.Abs(geom.Area(p.Outline)); !(a > 0) || math.IsInf(a, 1) {
			return fmt.Errorf("laying parts: the outline of part %d has no area (%d points)", i, len(p.Outline))
		}
	}
	for i, b := range blocked {
		if a := math.Abs(geom.Area(b.Outline)); !(a > 0) || math.IsInf(a, 1) || b.Sheet < 0 {
			return fmt.Errorf("laying parts: blocked outline %d, on sheet %d, has no area or no sheet", i, b.Sheet)
		}
	}
	return nil
}
