package fit

import (
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// worn is one of a piece, on the body; of a pair, the right one is the left
// one's mirror image.
type worn struct {
	piece  *pattern.Piece
	mirror bool
}

// wornOn are the pieces on a segment.
func wornOn(set *pattern.Set, seg body.Segment, side body.Side) []worn {
	var out []worn
	for i := range set.Pieces {
		p := &set.Pieces[i]
		if p.Flat || p.Segment != seg {
			continue
		}
		if pair := p.Copies == 2 && p.Side == body.Both; p.Side == side || pair {
			out = append(out, worn{p, pair && side == body.Right})
		}
	}
	return out
}

// inBody brings a point of the piece into body axes.
func (w worn) inBody(p r3.Vec) r3.Vec {
	p = w.piece.Frame.Point(p)
	if w.mirror {
		p.X = -p.X
	}
	return p
}

// mesh is the neutral surface in body axes.
func (w worn) mesh() geom.Mesh {
	m := faces(w.piece, 0, (*pattern.Panel).Trimmed)
	for i, v := range m.V {
		m.V[i] = w.inBody(v)
	}
	return m
}

// spot is a place at a rim: where on the flat panel, and which way is in.
type spot struct {
	panel  *pattern.Panel
	at, in r2.Vec
	mirror bool // on the mirrored half of a panel that is cut twice
}

// apart is how far the places along a rim are from each other, mm (detail: over
// it a rim of a limb bows by a tenth of a millimetre).
const apart = 5.0

// nudge is how far inside its edge a panel's rim is looked at, mm (rounding: the
// edge itself counts).
const nudge = 0.01

// rimAt are places along the edges of a piece that face a joint.
func (w worn) rimAt(joint r3.Vec) []spot {
	if w.mirror {
		joint.X = -joint.X
	}
	mid := w.middle()
	above := w.piece.Frame.Local(joint).Y > mid
	var out []spot
	for i := range w.piece.Panels {
		p := &w.piece.Panels[i]
		for _, e := range p.Edges {
			if e.Kind != pattern.Rim || e.Gap {
				continue
			}
			for _, s := range along(e.Line) {
				s.panel = p
				at, _, ok := lift(&p.Surface, r2.Add(s.at, r2.Scale(nudge, s.in)))
				if !ok || at.Y > mid != above {
					continue
				}
				out = append(out, s)
				if p.Copies > w.piece.Copies {
					s.mirror = true
					out = append(out, s)
				}
			}
		}
	}
	return out
}

// middle is the level half way up the piece, piece axes.
func (w worn) middle() float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range w.piece.Panels {
		for _, v := range w.piece.Panels[i].Surface.Bent {
			low, high = min(low, v.Y), max(high, v.Y)
		}
	}
	return (low + high) / 2
}

// along puts places on an edge; the panel lies to its left.
func along(line []r2.Vec) []spot {
	var out []spot
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		l := geom.Dist(a, b)
		if l < geom.Coincident {
			continue
		}
		in := r2.Scale(1/l, r2.Vec{X: a.Y - b.Y, Y: b.X - a.X})
		n := math.Ceil(l / apart)
		for k := range int(n) {
			out = append(out, spot{at: geom.Lerp(a, b, (float64(k)+0.5)/n), in: in})
		}
	}
	return out
}

// foam is a place and its outward normal in body axes, so far in from the rim,
// on the neutral surface; false where there is no foam.
func (w worn) foam(s spot, in float64) (at, normal r3.Vec, ok bool) {
	flat := r2.Add(s.at, r2.Scale(in+nudge, s.in))
	if !s.panel.Covers(flat) {
		return at, normal, false
	}
	if at, normal, ok = lift(&s.panel.Surface, flat); !ok {
		return at, normal, false
	}
	if s.mirror {
		at.X, normal.X = -at.X, -normal.X
	}
	if normal = w.piece.Frame.Dir(normal); w.mirror {
		normal.X = -normal.X
	}
	return w.inBody(at), normal, true
}

// lift is the place on the bent surface of a point of the flat panel, and the
// outward unit normal there.
func lift(s *pattern.Surface, p r2.Vec) (at, normal r3.Vec, ok bool) {
	const slack = -1e-6 // rounding: no gap between neighbours
	for _, t := range s.T {
		a, b, c := s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]
		area := r2.Cross(r2.Sub(b, a), r2.Sub(c, a))
		if area <= 0 {
			continue
		}
		u, v := r2.Cross(r2.Sub(b, p), r2.Sub(c, p))/area, r2.Cross(r2.Sub(c, p), r2.Sub(a, p))/area
		if u < slack || v < slack || u+v > 1-slack {
			continue
		}
		d, e := r3.Sub(s.Bent[t[1]], s.Bent[t[0]]), r3.Sub(s.Bent[t[2]], s.Bent[t[0]])
		at = r3.Add(s.Bent[t[0]], r3.Add(r3.Scale(v, d), r3.Scale(1-u-v, e)))
		return at, r3.Unit(r3.Cross(d, e)), true
	}
	return at, normal, false
}

// thick are the outer and the inner face at a place of the foam.
func (w worn) thick(at, normal r3.Vec) [2]r3.Vec {
	t, k := w.piece.Thickness, w.piece.K
	return [2]r3.Vec{r3.Add(at, r3.Scale((1-k)*t, normal)), r3.Sub(at, r3.Scale(k*t, normal))}
}
