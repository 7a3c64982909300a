package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// mostTurned is how far a piece may turn away at its free edge, mm, for an opening
// to be carried on over what cannot be seen from the opening's side; judgement.
const mostTurned = 40.0

// carryOn carries an opening's line on straight over what is turned away to a free
// edge of the panel, where the line was lost before it came to an edge: the side of
// a plate may turn a little past what is seen of it from the front. An error where
// it would come to a seam, whose other side knows of no cut, or not come to an edge.
func (p *rawPanel) carryOn(ch *chain, b border) error {
	s := &ch.strokes[0]
	n := len(s.pts)
	if ch.lost[0] {
		at, q, ok := p.ahead(s.pts[1], s.pts[0], b)
		if !ok {
			return s.notSeen()
		}
		ch.start, s.pts = at, append([]r2.Vec{q}, s.pts...)
		n++
	}
	if ch.lost[1] {
		at, q, ok := p.ahead(s.pts[n-2], s.pts[n-1], b)
		if !ok {
			return s.notSeen()
		}
		ch.end, s.pts = at, append(s.pts, q)
	}
	return nil
}

// ahead is where the way from a place of the panel through another one comes to the
// border, if that is a free edge, and near.
func (p *rawPanel) ahead(from, through r2.Vec, b border) (at place, q r2.Vec, ok bool) {
	way := r2.Unit(r2.Sub(through, from))
	nearest := mostTurned
	for i := range b.from {
		a, c := p.surf.Flat[b.from[i]], p.surf.Flat[b.to[i]]
		edge := r2.Sub(c, a)
		det := r2.Cross(way, edge)
		if det == 0 {
			continue
		}
		to := r2.Sub(a, through)
		far, t := r2.Cross(to, edge)/det, r2.Cross(to, way)/det
		if far < geom.Coincident || far > nearest || t < 0 || t >= 1 {
			continue
		}
		nearest, at, q, ok = far, place{i, t}, geom.Lerp(a, c, t), p.sides[b.side[i]].seam == atRim
	}
	return at, q, ok
}
