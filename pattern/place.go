package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// markSize is the arm of the cross that stands for a place, mm.
const markSize = 4.0

// addPlaced draws marks, and fastenings away from the gap, at their angle and
// level on whatever panel lies there.
func (b *builder) addPlaced(p *Piece, s *shape) error {
	e := evaluator{env: b.env}
	b.pullsOpen(&e)
	for _, m := range b.template.Marks {
		if len(m.On) == 0 && e.on(m.When) {
			b.put(p, s, e.num(m.Angle), e.num(m.Level), b.note(&e, m), 2*markSize, 0)
		}
	}
	for _, f := range b.template.Fastenings {
		if f.AtGap || f.On != "" || !e.on(f.When) {
			continue
		}
		b.placedFastening(&e, p, s, f)
	}
	return e.err
}

// placeOn is a place on a panel.
type placeOn struct {
	panel int
	q     r2.Vec      // in the flat panel
	moved *geom.Frame // of a further copy of it: where that stands; nil: of the panel itself
	image bool        // on the mirror image that is cut from the same template
	only  string      // what the mark says of the copy that it is on; "": it is on all
}

// anyLame is any part of the piece: its rigid rest or a lame.
const anyLame = -1

// put draws a mark of width and height round a place of the shell: a closed one
// as a rectangle, another as a cross. A place that an opening has taken away
// gets none.
func (b *builder) put(p *Piece, s *shape, angle, level float64, m Mark, w, h float64) {
	for _, at := range b.spots(p, s, angle, level, false, anyLame) {
		m.Line = around(at.q, w, h, m.Close)
		p.Panels[at.panel].Marks = append(p.Panels[at.panel].Marks, m)
	}
}

// spots are the places of a piece's panels at an angle and level, and with
// mirror at the mirrored angle; of lame n, or of any part. Of a mirrored pair
// cut from one template the place is named once.
func (b *builder) spots(p *Piece, s *shape, angle, level float64, mirror bool, lame int) []placeOn {
	from, dir, ok := b.ray(s, angle, level, lame)
	if !ok {
		return nil
	}
	flip := func(v r3.Vec) r3.Vec { return r3.Vec{X: -v.X, Y: v.Y, Z: v.Z} }
	at, ok := p.pierced(from, dir, lame)
	image, twice := p.pierced(flip(from), flip(dir), lame)
	switch {
	case !ok && b.template.Mirror && twice: // the half that is there stands for both
		image.image = true
		return []placeOn{image}
	case !ok:
		return nil
	case mirror && twice && !(b.template.Mirror && p.Panels[at.panel].Flipped > 0):
		return []placeOn{at, image}
	}
	return []placeOn{at}
}

// spotsNear are spots; where there is no panel, those of a strap are at the nearest
// place that has one. Its patch is moved inside the rims anyway.
func (b *builder) spotsNear(p *Piece, s *shape, angle, level float64, mirror, strapped bool) []placeOn {
	at := b.spots(p, s, angle, level, mirror, anyLame)
	if len(at) > 0 || !strapped {
		return at
	}
	for _, m := range nearMoves() {
		if at = b.spots(p, s, angle+m.X/nearReach, level+m.Y, mirror, anyLame); len(at) > 0 {
			return at
		}
	}
	return nil
}

// nearMoves are moves over a piece, the least first: round it, mm where it stands
// nearReach from its axis, and up.
func nearMoves() (out []r2.Vec) {
	for _, m := range patchMoves() {
		if math.Mod(m.X, nearStep) == 0 && math.Mod(m.Y, nearStep) == 0 {
			out = append(out, m)
		}
	}
	return out
}

// Of a search for the nearest place (judgement): in steps, mm, and as far from the axis as most pieces stand, mm.
const nearStep, nearReach = 6.0, 120.0

// ray runs from the axis outwards at an angle and level, piece axes.
func (b *builder) ray(s *shape, angle, level float64, lame int) (from, dir r3.Vec, ok bool) {
	if b.template.Frame.Axis == "across" {
		level = -level
	}
	for _, shell := range s.shells {
		if lame > 0 && shell.lame != lame {
			continue
		}
		if middle, ok := shell.axisAt(level); ok {
			return s.pieceFromShell.Point(middle), s.pieceFromShell.Dir(shell.across(angle, level)), true
		}
	}
	return from, dir, false
}

// pierced is the first place where a ray leaves a panel of the shell: of lame n,
// or of any part.
func (p *Piece) pierced(from, dir r3.Vec, lame int) (placeOn, bool) {
	for i := range p.Panels {
		if p.Panels[i].Role != OfShell || lame != anyLame && p.Panels[i].Lame != lame {
			continue
		}
		if q, ok := p.Panels[i].pierced(from, dir); ok {
			return placeOn{panel: i, q: q}, true
		}
		for k := range p.Panels[i].alike {
			moved := &p.Panels[i].alike[k]
			if q, ok := p.Panels[i].pierced(moved.Local(from), moved.LocalDir(dir)); ok {
				return placeOn{panel: i, q: q, moved: moved}, true
			}
		}
	}
	return placeOn{}, false
}

func around(c r2.Vec, w, h float64, closed bool) []r2.Vec {
	x, y := r2.Vec{X: w / 2}, r2.Vec{Y: h / 2}
	if !closed {
		return []r2.Vec{r2.Sub(c, x), r2.Add(c, x)}
	}
	return []r2.Vec{r2.Sub(r2.Sub(c, x), y), r2.Sub(r2.Add(c, x), y), r2.Add(r2.Add(c, x), y), r2.Add(r2.Sub(c, x), y)}
}

// pierced is the place in the flat panel where a ray leaves through its bent
// surface.
func (p *Panel) pierced(from, dir r3.Vec) (r2.Vec, bool) {
	s := &p.Surface
	for ti, t := range s.T {
		if s.aside(t, from, dir) {
			continue
		}
		n := s.normal(ti)
		along := r3.Dot(n, dir)
		if along <= 0 {
			continue
		}
		hit := r3.Add(from, r3.Scale(r3.Dot(n, r3.Sub(s.Bent[t[0]], from))/along, dir))
		w, inside := weights(hit, s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]])
		if !inside || r3.Dot(r3.Sub(hit, from), dir) <= 0 {
			continue
		}
		if at := blend2(s.Flat, t, w); p.Covers(at) {
			return at, true
		}
	}
	return r2.Vec{}, false
}

// aside tells whether a ray surely passes a triangle: farther from its first corner than
// the two others are.
func (s *Surface) aside(t [3]int, from, dir r3.Vec) bool {
	a := s.Bent[t[0]]
	to := r3.Sub(a, from)
	along := r3.Dot(to, dir)
	reach := max(r3.Norm2(r3.Sub(s.Bent[t[1]], a)), r3.Norm2(r3.Sub(s.Bent[t[2]], a)))
	return r3.Norm2(to)-along*along/r3.Norm2(dir) > reach+geom.Detail
}

// weights are a point's barycentric weights in a triangle, and whether it lies
// in it.
func weights(p, a, b, c r3.Vec) (w [3]float64, inside bool) {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	area := r3.Dot(n, n)
	w[0] = r3.Dot(n, r3.Cross(r3.Sub(b, p), r3.Sub(c, p))) / area
	w[1] = r3.Dot(n, r3.Cross(r3.Sub(c, p), r3.Sub(a, p))) / area
	w[2] = 1 - w[0] - w[1]
	return w, math.Min(w[0], math.Min(w[1], w[2])) >= -1e-9
}
