package body

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// bound finds the distance from one part with what is worn on it. Its trees are
// made when first asked.
type bound struct {
	low, high r3.Vec // corners of a box round it, body axes
	trees     func() []*geom.Locator
}

// newBound boxes a part loosely and leaves the trees for later.
func newBound(p *Part) bound {
	trees := sync.OnceValue(func() []*geom.Locator {
		low, high := p.ends()
		out := []*geom.Locator{geom.NewLocator(inBody(p.Frame, closed(p.thicken(p.tube(low, high)))))}
		for _, s := range p.solids() {
			out = append(out, geom.NewLocator(inBody(p.Frame, s)))
		}
		return out
	})
	b := bound{trees: trees}
	b.low, b.high = p.box()
	return b
}

// ends are the levels between which the part stands for flesh: a little past
// its joints, so that neighbours overlap, without the overrun that only carries
// shells.
func (p *Part) ends() (low, high float64) {
	const overlap = 10 // mm
	low, high = p.flesh()
	if p.cap != nil {
		return max(p.low, low-overlap), p.high
	}
	return max(p.low, low-overlap), min(p.high, high+overlap)
}

// box is a box in body axes that the part with what is worn lies in: loose, so
// that no mesh need be made for it.
func (p *Part) box() (low, high r3.Vec) {
	low = r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	high = r3.Scale(-1, low)
	var thick float64
	for _, l := range p.layers {
		thick += math.Max(0, l.thickness)
	}
	add := func(x, y, z float64) {
		q := p.Frame.Point(r3.Vec{X: x, Y: y, Z: z})
		low = r3.Vec{X: min(low.X, q.X-thick), Y: min(low.Y, q.Y-thick), Z: min(low.Z, q.Z-thick)}
		high = r3.Vec{X: max(high.X, q.X+thick), Y: max(high.Y, q.Y+thick), Z: max(high.Z, q.Z+thick)}
	}
	for _, y := range p.rings(p.ends()) {
		o := p.at(y)
		for _, x := range []float64{o.x - o.Breadth/2, o.x + o.Breadth/2} {
			add(x, y, o.z-o.Back)
			add(x, y, o.z+o.Front)
		}
	}
	for _, s := range slices.Concat(p.extra, p.details) {
		for _, v := range s.V {
			add(v.X, v.Y, v.Z)
		}
	}
	return low, high
}

// away is how far a point is outside the box at least; 0 inside.
func (b bound) away(p r3.Vec) float64 {
	gap := func(x, low, high float64) float64 { return max(low-x, 0, x-high) }
	return math.Sqrt(r3.Norm2(r3.Vec{X: gap(p.X, b.low.X, b.high.X), Y: gap(p.Y, b.low.Y, b.high.Y), Z: gap(p.Z, b.low.Z, b.high.Z)}))
}

// Box is an upright box in body axes that the part with what is worn on it lies
// in: loose, and cheap to ask for.
func (p *Part) Box() (low, high r3.Vec) { return p.bound.low, p.bound.high }

// Away is how far a point (body axes) is outside that box; 0 inside.
func (p *Part) Away(at r3.Vec) float64 { return p.bound.away(at) }

// Nearer is the lesser of nearest and how far a point (body axes) is from the
// part with what is worn on it. It costs little where the point is farther away.
func (p *Part) Nearer(at r3.Vec, nearest float64) float64 {
	if p.bound.away(at) > max(nearest, 0) {
		return nearest
	}
	for _, t := range p.bound.trees() {
		if t.Away(at) <= max(nearest, 0) {
			nearest = t.Nearer(at, nearest)
		}
	}
	return nearest
}

// NearerOutside is Nearer for a place that is known to be outside the part and all
// that is worn on it.
func (p *Part) NearerOutside(at r3.Vec, nearest float64) float64 {
	if p.bound.away(at) > nearest {
		return nearest
	}
	for _, t := range p.bound.trees() {
		nearest = t.NearerOutside(at, nearest)
	}
	return nearest
}

// Distance is how far a point (body axes) is from the nearest thing of the body
// or worn on it: skin, layers, ears, nose, hair, glasses; negative inside.
func (f *Form) Distance(p r3.Vec) float64 { return f.Nearer(p, math.Inf(1)) }

// Nearer is the lesser of nearest and the Distance of a point. It costs little
// where the point is farther away.
func (f *Form) Nearer(p r3.Vec, nearest float64) float64 {
	likely := slices.MinFunc(f.parts, func(a, b *Part) int { return cmp.Compare(a.bound.away(p), b.bound.away(p)) })
	nearest = likely.Nearer(p, nearest)
	for _, q := range f.parts {
		if q != likely {
			nearest = q.Nearer(p, nearest)
		}
	}
	return nearest
}

// closed caps the open ends of a part's tube with fans: its first and last
// meshTurns points are rings, unless a dome ends it in an apex.
func closed(m geom.Mesh) geom.Mesh {
	out := geom.Mesh{V: append([]r3.Vec(nil), m.V...), T: append([][3]int(nil), m.T...)}
	fan := func(first int, up bool) {
		var sum r3.Vec
		for _, v := range m.V[first : first+meshTurns] {
			sum = r3.Add(sum, v)
		}
		centre := len(out.V)
		out.V = append(out.V, r3.Scale(1.0/meshTurns, sum))
		for i := range meshTurns {
			a, b := first+i, first+(i+1)%meshTurns
			if !up {
				a, b = b, a
			}
			out.T = append(out.T, [3]int{a, b, centre})
		}
	}
	fan(0, false)
	if (len(m.V)-1)%meshTurns != 0 {
		fan(len(m.V)-meshTurns, true)
	}
	return out
}
