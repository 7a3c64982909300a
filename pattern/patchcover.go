package pattern

import (
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
	on, all := 0, placesIn(t.outline())
	for _, q := range all {
		if f.covers(q) {
			on++
		}
	}
	return float64(on) / float64(len(all))
}

// holds tells whether at least such a share of a patch lies on the foam.
func (f cover) holds(t patch, share float64) bool {
	all := placesIn(t.outline())
	off := int(math.Round((1 - share) * float64(len(all))))
	for _, q := range all {
		if !f.covers(q) {
			if off--; off < 0 {
				return false
			}
		}
	}
	return true
}

// placesIn are places all over a patch of four corners; those that follow each other
// lie far apart.
func placesIn(c []r2.Vec) (out [100]r2.Vec) {
	const n, stride = 10, 37
	u, v := r2.Sub(c[1], c[0]), r2.Sub(c[3], c[0])
	for k := range out {
		i, j := k*stride%len(out)/n, k*stride%n
		out[k] = r2.Add(c[0], r2.Add(r2.Scale((float64(i)+0.5)/n, u), r2.Scale((float64(j)+0.5)/n, v)))
	}
	return out
}
