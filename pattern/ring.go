package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// facetRing is the polygon whose sides face the given angles and just touch
// the ring that it goes round. Sides of two rings that face one angle are
// parallel, so a facet between them is flat.
// Corner i lies between side i-1 and side i.
func facetRing(round []r2.Vec, facing []float64) ([]r2.Vec, error) {
	n := len(facing)
	corners := make([]r2.Vec, n)
	for i := range facing {
		a, b := direction(facing[(i+n-1)%n]), direction(facing[i])
		p, ok := meet(a, geom.Support(round, a), b, geom.Support(round, b))
		if !ok {
			return nil, fmt.Errorf("the corners near %.0f° lie too far apart; two neighbouring corners must be less than 180° apart", facing[i]*180/math.Pi)
		}
		corners[i] = p
	}
	for i := range corners {
		along := r2.Sub(corners[(i+1)%n], corners[i])
		if r2.Dot(along, direction(facing[i]+math.Pi/2)) < geom.Detail {
			return nil, fmt.Errorf("the facet that faces %.0f° vanishes; put its corners further apart or leave one out", facing[i]*180/math.Pi)
		}
	}
	return corners, nil
}

// meet is where the line a·p = ha crosses the line b·p = hb.
func meet(a r2.Vec, ha float64, b r2.Vec, hb float64) (r2.Vec, bool) {
	det := r2.Cross(a, b)
	if det < 1e-3 { // nearly parallel, or more than half a turn apart
		return r2.Vec{}, false
	}
	return r2.Vec{X: (ha*b.Y - hb*a.Y) / det, Y: (hb*a.X - ha*b.X) / det}, true
}

// facings are the angles that the sides between corners face, side i lying
// between corner i and corner i+1.
func facings(corners []float64) []float64 {
	out := make([]float64, len(corners))
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if i == len(corners)-1 {
			b += 2 * math.Pi
		}
		out[i] = (a + b) / 2
	}
	return out
}

// ridge is a crease that stands out of a ring.
type ridge struct{ angle, rise float64 }

// creasedRing pulls a ring out to ridges that stand rise outside it, with
// straight flanks from each ridge to the ring.
func creasedRing(round []r2.Vec, ridges []ridge) (ring, tips []r2.Vec) {
	return creasedAbout(geom.Centroid(round), round, ridges)
}

func creasedAbout(centre r2.Vec, round []r2.Vec, ridges []ridge) (ring, tips []r2.Vec) {
	pts := append([]r2.Vec(nil), round...)
	for _, c := range ridges {
		p, _ := rayMeets(round, centre, c.angle, 0)
		tip := r2.Add(p, r2.Scale(c.rise, direction(c.angle)))
		pts, tips = append(pts, tip), append(tips, tip)
	}
	return hull(pts), tips
}

// rayMeets is the point of a closed convex ring at an angle from a centre
// inside it, and the side that it lies on. Sides are looked at from one on.
func rayMeets(ring []r2.Vec, centre r2.Vec, angle float64, from int) (r2.Vec, int) {
	d := direction(angle)
	for k := range ring {
		i := (from + k) % len(ring)
		a, b := ring[i], ring[(i+1)%len(ring)]
		ca, cb := r2.Cross(d, r2.Sub(a, centre)), r2.Cross(d, r2.Sub(b, centre))
		if ca <= 0 && cb > 0 {
			return r2.Add(a, r2.Scale(ca/(ca-cb), r2.Sub(b, a))), i
		}
	}
	return ring[0], 0
}

// position is a place on a closed ring, as arc length from its first point. At the
// first point itself it is nothing, not the whole ring.
func position(ring []r2.Vec, p r2.Vec) float64 {
	best, at, s := math.Inf(1), 0.0, 0.0
	for i, a := range ring {
		ab := r2.Sub(ring[(i+1)%len(ring)], a)
		l := math.Sqrt(r2.Norm2(ab))
		if l == 0 {
			continue
		}
		t := min(max(r2.Dot(r2.Sub(p, a), ab)/(l*l), 0), 1)
		if d := geom.Dist(r2.Add(a, r2.Scale(t, ab)), p); d < best-geom.Coincident {
			best, at = d, s+t*l
		}
		s += l
	}
	return at
}

// walk is the point of a closed ring at an arc length, taken round and round.
func walk(ring []r2.Vec, s float64) r2.Vec {
	total := geom.Perimeter(ring)
	if s = math.Mod(s, total); s < 0 {
		s += total
	}
	for i, a := range ring {
		ab := r2.Sub(ring[(i+1)%len(ring)], a)
		l := math.Sqrt(r2.Norm2(ab))
		if s <= l {
			if l == 0 {
				return a
			}
			return r2.Add(a, r2.Scale(s/l, ab))
		}
		s -= l
	}
	return ring[0]
}

// outward is the unit vector to the right of a counter-clockwise side, zero
// where the side has no length.
func outward(a, b r2.Vec) r2.Vec {
	ab := r2.Sub(b, a)
	l := math.Sqrt(r2.Norm2(ab))
	if l < geom.Coincident {
		return r2.Vec{}
	}
	return r2.Vec{X: ab.Y / l, Y: -ab.X / l}
}
