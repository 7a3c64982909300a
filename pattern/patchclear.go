package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// boxed are outlines with a box round each, for who asks much what they meet.
type boxed struct {
	rings [][]r2.Vec
	boxes []r2.Box
	met   [][]r2.Vec
}

func boxedAll(rings [][]r2.Vec) *boxed {
	b := &boxed{rings: rings}
	for _, r := range rings {
		b.boxes = append(b.boxes, geom.Bounds(r))
	}
	return b
}

// meeting are the outlines whose boxes meet that of a patch; they are good until it is
// asked again.
func (b *boxed) meeting(ts []patch) [][]r2.Vec {
	b.met = b.met[:0]
	for _, t := range ts {
		x := (t.long*math.Abs(t.along.X) + t.wide*math.Abs(t.along.Y)) / 2
		y := (t.long*math.Abs(t.along.Y) + t.wide*math.Abs(t.along.X)) / 2
		for i, o := range b.boxes {
			if o.Max.X > t.at.X-x && o.Min.X < t.at.X+x && o.Max.Y > t.at.Y-y && o.Min.Y < t.at.Y+y {
				b.met = append(b.met, b.rings[i])
			}
		}
	}
	return b.met
}

// allClear tells whether patches lie off what is taken, and off each other.
func allClear(ts []patch, taken [][]r2.Vec) bool { return tooDeep(ts, taken) <= 0 }

// tooDeep is how far patches must be moved at least, mm, to lie no deeper than a little
// over what is taken and over each other: of two that move towards each other, each.
func tooDeep(ts []patch, taken [][]r2.Vec) (short float64) {
	for i := range ts {
		ring := ts[i].outline()
		for _, o := range taken {
			short = max(short, depth(ring, o)-littleShared)
		}
		for _, t := range ts[:i] {
			short = max(short, (depth(ring, t.outline())-littleShared)/2)
		}
	}
	return short
}

// depth is how far one of two convex outlines must be moved to come off the other; 0
// if they lie apart. (Separating axes: it is the least over the normals of all sides.)
func depth(a, b []r2.Vec) float64 {
	p, q := geom.Bounds(a), geom.Bounds(b)
	if p.Max.X <= q.Min.X || q.Max.X <= p.Min.X || p.Max.Y <= q.Min.Y || q.Max.Y <= p.Min.Y {
		return 0
	}
	least := math.Inf(1)
	for _, ring := range [][]r2.Vec{a, b} {
		for i := range ring {
			if i > 1 && parallelogram(ring) { // its other sides have the same normals
				break
			}
			d := r2.Sub(ring[(i+1)%len(ring)], ring[i])
			if r2.Norm(d) < geom.Coincident {
				continue
			}
			n := quarterTurn(r2.Unit(d))
			lowA, highA := reachAlong(a, n)
			lowB, highB := reachAlong(b, n)
			if least = min(least, highA-lowB, highB-lowA); least <= 0 {
				return 0
			}
		}
	}
	return least
}

func parallelogram(ring []r2.Vec) bool {
	return len(ring) == 4 && geom.Dist(r2.Add(ring[0], ring[2]), r2.Add(ring[1], ring[3])) < geom.Coincident
}

func reachAlong(ring []r2.Vec, n r2.Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, q := range ring {
		low, high = min(low, r2.Dot(q, n)), max(high, r2.Dot(q, n))
	}
	return low, high
}

// taken are the outlines of pads, and of what is fastened on the copies of a panel that
// a mark says it is on, but for some marks.
func (p *Panel) taken(only string, but []int) (out [][]r2.Vec) {
	out = slices.Clone(p.padded)
	for i, m := range p.Marks {
		if m.Kind == "fastening" && m.Close && !slices.Contains(but, i) && !onOthers(only, m.Only) {
			out = append(out, m.Line)
		}
	}
	return out
}

// onOthers tells whether two marks are on different copies of a panel.
func onOthers(one, other string) bool {
	return one == oneCopy || other == oneCopy || one != other && one != "" && other != ""
}
