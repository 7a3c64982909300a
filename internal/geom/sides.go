package geom

import "gonum.org/v1/gonum/spatial/r2"

// Sides are the sides of a ring for who asks much about them: few of a long ring
// lie near a place.
type Sides struct {
	all   [][2]r2.Vec
	boxes []r2.Box // round so many sides after each other
	whole r2.Box
}

// together is how many sides share a box (detail).
const together = 8

// SidesOf prepares a ring. Sides without length are left out.
func SidesOf(ring []r2.Vec) Sides {
	s := Sides{all: make([][2]r2.Vec, 0, len(ring)), whole: Bounds(ring)}
	for i, a := range ring {
		if b := ring[(i+1)%len(ring)]; a != b {
			s.all = append(s.all, [2]r2.Vec{a, b})
		}
	}
	for from := 0; from < len(s.all); from += together {
		box := Bounds(s.all[from][:])
		for _, l := range s.all[from:min(from+together, len(s.all))] {
			box.Min = r2.Vec{X: min(box.Min.X, l[1].X), Y: min(box.Min.Y, l[1].Y)}
			box.Max = r2.Vec{X: max(box.Max.X, l[1].X), Y: max(box.Max.Y, l[1].Y)}
		}
		s.boxes = append(s.boxes, box)
	}
	return s
}

// stretch are the sides that share box i.
func (s Sides) stretch(i int) [][2]r2.Vec {
	return s.all[i*together : min((i+1)*together, len(s.all))]
}

// Near adds to out, in the ring's order, all sides that may meet a box.
func (s Sides) Near(box r2.Box, out [][2]r2.Vec) [][2]r2.Vec {
	for i, b := range s.boxes {
		if b.Max.X >= box.Min.X && b.Min.X <= box.Max.X && b.Max.Y >= box.Min.Y && b.Min.Y <= box.Max.Y {
			out = append(out, s.stretch(i)...)
		}
	}
	return out
}

// Inside tells whether a point lies inside the ring, as the function Inside does.
func (s Sides) Inside(p r2.Vec) bool {
	in := false
	if p.Y < s.whole.Min.Y || p.Y >= s.whole.Max.Y || p.X > s.whole.Max.X {
		return in
	}
	for i, box := range s.boxes {
		if p.Y < box.Min.Y || p.Y >= box.Max.Y || p.X > box.Max.X {
			continue
		}
		for _, l := range s.stretch(i) {
			a, b := l[0], l[1]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}
