package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// spot is a place of a drawn edge, on the piece if met; else it runs past the
// piece's rim there.
type spot struct {
	q    r2.Vec // in the picture
	p    r3.Vec
	met  bool
	out  r3.Vec // where the ray to it leaves the piece on its far side
	left bool   // it does

	beside bool // nothing is seen there: past the piece sideways, or where it is open
}

// How a drawn edge is followed (detail): spots on the piece stand no farther
// apart than rimStep; where the curve leaves the piece is found to a
// 2^-halvings of a chord; the piece is looked for up to farthestRim beside the
// curve, in steps of rimSearch.
const (
	rimStep     = 3.0
	halvings    = 24
	farthestRim = 60.0
	rimSearch   = 2.0
)

// along follows a drawn edge over the piece. What runs past the piece sideways
// is left out; gap is how far it runs past the rim at most.
func (w *walls) along(s *sketch, lower bool) (spots []spot, gap float64) {
	at := func(q r2.Vec) spot { return w.spot(s.eye, q) }
	up := 1.0 // from beyond the rim to the piece
	if !lower {
		up = -1
	}
	last := at(s.line[0])
	spots = append(spots, last)
	for _, q := range s.line[1:] {
		next := at(q)
		spots = append(spots, w.steps(at, last, next, halvings)...)
		spots = append(spots, next)
		last = next
	}
	for i := range spots {
		if spots[i].met {
			continue
		}
		// Past the rim, if the piece is nearer up or down than sideways.
		past, ok := w.shortOf(s.eye, spots[i].q, r2.Vec{Y: up})
		aside, nearer := w.shortOf(s.eye, spots[i].q, r2.Vec{X: math.Copysign(1, s.eye.see(w.middle).X-spots[i].q.X)})
		spots[i].beside = !ok || nearer && aside < past
		if !spots[i].beside {
			gap = max(gap, past)
		}
	}
	spots = slices.DeleteFunc(spots, func(s spot) bool { return s.beside && !s.left })
	return w.deepen(s.eye, spots), gap
}

// spot is where a place of an eye's picture lies on the piece.
func (w *walls) spot(e eye, q r2.Vec) spot {
	const inside = 0.5 // mm past the near side
	s := spot{q: q}
	from, dir := e.at, r3.Unit(e.ray(e.target(q)))
	if s.p, s.met = w.hit(from, dir, false); s.met {
		from = r3.Add(s.p, r3.Scale(inside, dir))
	}
	s.out, s.left = w.hit(from, dir, true) // or it comes in where the piece is open
	return s
}

// near tells whether two spots stand close enough to be joined straight.
func (s *spot) near(o *spot) bool {
	if s.met != o.met || s.left != o.left && !s.met {
		return false
	}
	return !s.met && !s.left || (!s.met || geom.Dist(s.p, o.p) < rimStep) && (!s.left || !o.left || geom.Dist(s.out, o.out) < rimStep)
}

// steps puts spots between two that stand too far apart on the piece, and finds
// where the curve leaves it.
func (w *walls) steps(at func(r2.Vec) spot, a, b spot, deep int) []spot {
	if deep == 0 || a.near(&b) || geom.Dist(a.q, b.q) < geom.Coincident {
		return nil
	}
	mid := at(geom.Lerp(a.q, b.q, 0.5))
	out := w.steps(at, a, mid, deep-1)
	if mid.met || mid.left {
		out = append(out, mid)
	}
	return append(out, w.steps(at, mid, b, deep-1)...)
}

// goesOn is how far the piece goes on sideways past the ends of a drawn edge at
// most, as far as is looked.
func (w *walls) goesOn(e eye, spots []spot) float64 {
	most := 0.0
	n := len(spots)
	for _, end := range [][2]int{{0, n - 1}, {n - 1, 0}} {
		a, b := spots[end[0]], spots[end[1]]
		if !a.met {
			continue
		}
		out := r2.Vec{X: math.Copysign(rimSearch, a.q.X-b.q.X)}
		d := 0.0
		for q := a.q; d < farthestRim; d += rimSearch {
			q = r2.Add(q, out)
			if _, ok := w.seen(e, q); !ok {
				break
			}
		}
		most = max(most, d)
	}
	return most
}

// shortOf is how far the piece lies from a place of the picture in a direction.
func (w *walls) shortOf(e eye, q, dir r2.Vec) (float64, bool) {
	met := func(d float64) bool {
		_, ok := w.seen(e, r2.Add(q, r2.Scale(d, dir)))
		return ok
	}
	for d := rimSearch; d <= farthestRim; d += rimSearch {
		if !met(d) {
			continue
		}
		low, high := d-rimSearch, d
		for range halvings {
			if mid := (low + high) / 2; met(mid) {
				high = mid
			} else {
				low = mid
			}
		}
		return high, true
	}
	return 0, false
}

// deepen puts spots past the rim as deep as the nearest one on the piece.
func (w *walls) deepen(e eye, spots []spot) []spot {
	for i := range spots {
		if spots[i].met {
			continue
		}
		for d := 1; d < len(spots); d++ {
			j := i - d
			if j < 0 || !spots[j].met {
				j = i + d
			}
			if j < len(spots) && spots[j].met {
				spots[i].p = e.atDepth(spots[i].q, -r3.Dot(r3.Sub(spots[j].p, e.at), e.toward))
				break
			}
		}
	}
	return spots
}
