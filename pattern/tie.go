package pattern

import (
	"fmt"
	"maps"
	"slices"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r3"
)

// fasten marks the other parts of fastenings that go from piece to piece, and
// measures their straps.
func (set *Set) fasten() ([]report.Finding, error) {
	var found []report.Finding
	for i := range set.Pieces { // what a piece is by itself stays as it was made
		p := &set.Pieces[i]
		p.Panels, p.Straps = slices.Clone(p.Panels), slices.Clone(p.Straps)
	}
	for _, straps := range []bool{false, true} { // straps' patches are moved off what is there
		for i := range set.Pieces {
			more, err := set.fastenPiece(&set.Pieces[i], straps)
			if err != nil {
				return nil, err
			}
			found = append(found, more...)
		}
	}
	for i := range set.Pieces {
		set.Pieces[i].drawRests()
	}
	return found, nil
}

// fastenPiece is fasten for one piece's straps, or for its other fastenings.
func (set *Set) fastenPiece(p *Piece, straps bool) (found []report.Finding, err error) {
	if p.stands == nil {
		return nil, nil
	}
	for _, l := range p.stands.links {
		if l.strapped() != straps {
			continue
		}
		q := set.other(p, l.to)
		if q == nil {
			p.untied(l)
			found = append(found, report.Finding{Level: report.Doubt, Subject: p.Name,
				Said:    fmt.Sprintf("its %s goes to the %s, and the costume has none for it.", l.name, l.to),
				Perhaps: fmt.Sprintf("Add the %s, or fasten it to what you wear below.", l.to)})
			continue
		}
		tied, err := p.tie(q, l)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		if !tied {
			p.untied(l)
			found = append(found, report.Finding{Level: report.Doubt, Subject: p.Name,
				Said:    fmt.Sprintf("its %s goes to a place of the %s where that has no panel, so that end is not marked and no length is known.", l.name, q.Name),
				Perhaps: fmt.Sprintf("Hold both where they are worn and mark it there, or move the place in %s.", p.stands.file)})
		}
	}
	return found, nil
}

// untied notes a strap whose other end is on no piece: nothing is known of how long it is.
func (p *Piece) untied(l link) {
	if !l.strapped() || len(l.at) == 0 {
		return
	}
	a := l.at[0]
	a.piece = p
	count := p.Copies * max(len(l.at), a.on().perPiece(p))
	p.Straps = append(p.Straps, Strap{Kind: l.kind, Name: l.name, Number: l.number, Count: count, Width: l.width, From: a.on().Label})
}

// other is the piece of a template that a piece is fastened to: on its own side,
// or on no side.
func (set *Set) other(p *Piece, name string) *Piece {
	for i := range set.Pieces {
		q := &set.Pieces[i]
		if q != p && q.Template == name && q.stands != nil && (q.Side == p.Side || q.Side == body.Both || p.Side == body.Both) {
			return q
		}
	}
	return nil
}

// tie marks the other part of a fastening on the piece that it goes to: of a
// pair, or of a fastening on both sides, on both sides of that piece. It tells
// whether there is a panel at that place.
func (p *Piece) tie(q *Piece, l link) (bool, error) {
	e := evaluator{env: maps.Clone(l.env)}
	maps.Copy(e.env, q.stands.levels)
	toAngle, toLevel := e.num(l.angle), e.num(l.level)
	if e.err != nil {
		return false, e.err
	}
	ends := p.endsAt(q, l, toAngle, toLevel)
	switch {
	case len(ends) == 0:
		return false, nil
	case l.strapped():
		p.tieStrap(q, l, ends)
	default:
		q.mark(ends, l.fastened)
	}
	return true, nil
}

// endsAt are the places of the other part of a fastening: on both sides, if it has an
// image there. A strap that finds none goes to the nearest.
func (p *Piece) endsAt(q *Piece, l link, angle, level float64) (ends []end) {
	_, text := l.ends()
	text = fmt.Sprintf("%s, of the %s", text, p.Name)
	angles := []float64{angle}
	if paired := limb(q.Segment); !paired && p.Side == body.Right {
		angles[0] = -angle
	} else if l.mirror || !paired && p.Copies == 2 {
		angles = append(angles, -angle)
	}
	for _, angle := range angles {
		on, ok := q.standsOn(angle, level, len(ends) == 0)
		if ok && (len(ends) == 0 || ends[0].panel != on.panel || geom.Dist(ends[0].q, on.q) > samePlace) {
			ends = append(ends, end{placeOn: on, text: text})
		}
	}
	for i := 0; i < len(angles) && len(ends) == 0 && l.strapped(); i++ {
		if on, ok := q.nearestTo(angles[i], level); ok {
			ends = []end{{placeOn: on, text: text}}
		}
	}
	return ends
}

// tieStrap marks a strap's ends on both pieces, as long at either, and measures it.
func (p *Piece) tieStrap(q *Piece, l link, ends []end) {
	l.at = p.alongStraps(q, l, ends)
	there := q.mark(ends, l.fastened)
	for range mostShorter {
		short := min(shortest(l.at), shortest(there))
		if short >= l.h {
			break
		}
		l.h = short
		again(ends, there)
		l.at = p.alongStraps(q, l, ends)
		there = q.mark(ends, l.fastened)
	}
	p.strapTo(q, l, there[0])
}

// standsOn is the place of the piece's panels at an angle and level, or if that may be
// on the half that is cut from the same template as its image.
func (p *Piece) standsOn(angle, level float64, orImage bool) (placeOn, bool) {
	from, dir, ok := p.stands.ray(angle, level)
	if !ok {
		return placeOn{}, false
	}
	on, ok := p.pierced(from, dir, anyLame)
	if !ok && orImage {
		from.X, dir.X = -from.X, -dir.X
		on, ok = p.pierced(from, dir, anyLame)
	}
	return on, ok
}

// nearestTo is the place nearest to an angle and level that has a panel: a strap that
// finds none goes there.
func (p *Piece) nearestTo(angle, level float64) (placeOn, bool) {
	for _, m := range nearMoves() {
		if on, ok := p.standsOn(angle+m.X/nearReach, level+m.Y, true); ok {
			return on, true
		}
	}
	return placeOn{}, false
}

// alongStraps gives the ends of straps on the piece that they go to their way, and
// draws those on this one anew along it.
func (p *Piece) alongStraps(q *Piece, l link, ends []end) []anchor {
	var there []anchor
	for _, e := range ends {
		there = append(there, q.at(e.placeOn))
	}
	var here []anchor
	var again []end
	for _, a := range l.at {
		a.piece, a.q = p, a.asked
		here = append(here, a)
		m := a.on().Marks[a.mark]
		to, out := a.nearest(there)
		again = append(again, end{placeOn: placeOn{panel: a.panel, q: a.asked, moved: a.moved, image: a.image, only: m.Only}, text: m.Text, along: a.along(to, out, r3.Vec{}), anew: true, mark: a.mark})
	}
	for i := range ends {
		to, out := there[i].nearest(here)
		ends[i].along = there[i].along(to, out, r3.Vec{})
	}
	return p.mark(again, l.fastened)
}

// strapTo measures the strap of a fastening from its first end on the piece to one on
// the piece that it goes to.
func (p *Piece) strapTo(q *Piece, l link, z anchor) {
	a := l.at[0]
	a.piece = p
	if z.on().Flipped > 0 { // the end on the same side
		other := z
		other.image = true
		from, _ := a.place()
		here, _ := z.place()
		there, _ := other.place()
		z.image = geom.Dist(from, there) < geom.Dist(from, here)
	}
	count := p.Copies * max(len(l.at), a.on().perPiece(p))
	p.strap(l.fastened, count, a, z, pathOver(a, z, p.stands.around(), q.stands.around()))
	s := &p.Straps[len(p.Straps)-1]
	s.Hidden = l.kind == "strap and buckle" && s.hidden(a, z)
}

// samePlace is how near two places on one template are one, mm: on halves that are
// cut from one, both sides' marks fall together but for what their shape is uneven
// by (detail).
const samePlace = 1.0
