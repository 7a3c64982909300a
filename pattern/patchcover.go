package pattern

import (
	"iter"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// cover is a panel's outline and its holes, for who asks much where it has foam.
type cover []geom.Sides

func (p *Panel) cover() cover {
	f := cover{geom.SidesOf(p.Outline)}
	for _, h := range p.Holes {
		f = append(f, geom.SidesOf(h))
	}
	return f
}

func (f cover) covers(q r2.Vec) bool {
	for i, s := range f {
		if s.Inside(q) != (i == 0) {
			return false
		}
	}
	return true
}

func (f cover) off(q r2.Vec) bool { return !f.covers(q) }

// under is how much of a patch lies on the foam, 0 to 1.
func (f cover) under(t patch) float64 {
	on := 0
	for q := range placesIn(t.outline()) {
		if f.covers(q) {
			on++
		}
	}
	return float64(on) / patchPlaces
}

// holds tells whether at least such a share of a patch lies on the foam.
func (f cover) holds(t patch, share float64) bool {
	off := int(math.Round((1 - share) * patchPlaces))
	for q := range placesIn(t.outline()) {
		if !f.covers(q) {
			if off--; off < 0 {
				return false
			}
		}
	}
	return true
}

const patchPlaces = 100 // to a patch

// placesIn are places all over a patch of four corners; those that follow each other
// lie far apart.
func placesIn(c []r2.Vec) iter.Seq[r2.Vec] {
	const n, stride = 10, 37
	u, v := r2.Sub(c[1], c[0]), r2.Sub(c[3], c[0])
	return func(yield func(r2.Vec) bool) {
		for k := range patchPlaces {
			i, j := k*stride%patchPlaces/n, k*stride%n
			if !yield(r2.Add(c[0], r2.Add(r2.Scale((float64(i)+0.5)/n, u), r2.Scale((float64(j)+0.5)/n, v)))) {
				return
			}
		}
	}
}
