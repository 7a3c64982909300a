package fit

import (
	"math"

	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// point is a place of the foam on the neutral surface, body axes, with the
// outward unit normal.
type point struct {
	at, normal r3.Vec
	spot       *spot // at a rim; nil: within a panel
}

// spot is a place at a rim: where on the flat panel, and which way is in.
type spot struct {
	panel  *pattern.Panel
	at, in r2.Vec
	copy   pattern.Copy
}

// How far apart the places along a rim and within a panel are, mm: from one to
// the next a rim round a limb bows by a quarter of a millimetre. Near a contact
// they stand closer.
const (
	apart     = 10.0
	closely   = 2.5
	scattered = 35.0
)

// nudge is how far inside its edge a panel's rim is looked at, mm (rounding: the
// edge itself counts).
const nudge = 0.01

// rim are places along all edges that are joined to nothing.
func (w *worn) rim() []point { return w.rimBy(apart, func(r3.Vec) bool { return true }) }

// rimNear are places along the edges close to a place of the body.
func (w *worn) rimNear(at r3.Vec) []point {
	return w.rimBy(closely, func(p r3.Vec) bool { return geom.Dist(p, at) < 1.5*apart })
}

func (w *worn) rimBy(gap float64, wanted func(r3.Vec) bool) []point {
	var out []point
	for _, p := range w.panels() {
		for _, e := range p.Edges {
			if e.Gap || e.Kind != pattern.Rim && e.Kind != pattern.Opening {
				continue
			}
			for _, s := range along(e.Line, gap) {
				s.panel = p
				for _, s.copy = range w.piece.CopiesOf(p) {
					out = w.appendAt(out, s, wanted)
				}
			}
		}
	}
	return out
}

func (w *worn) appendAt(pts []point, s spot, wanted func(r3.Vec) bool) []point {
	at, normal, ok := w.lifted(&s, 0)
	if !ok || !wanted(at) {
		return pts
	}
	return append(pts, point{at, normal, &s})
}

// along puts places on an edge; the panel lies to its left.
func along(line []r2.Vec, gap float64) []spot {
	length := geom.Length(line)
	n := int(math.Ceil(length / gap))
	cum := geom.Lengths(line)
	var out []spot
	for k := range n {
		i, t := geom.Locate(cum, length*(float64(k)+0.5)/float64(n))
		if i+1 >= len(line) || geom.Dist(line[i], line[i+1]) < geom.Coincident {
			continue
		}
		d := r2.Unit(r2.Sub(line[i+1], line[i]))
		out = append(out, spot{at: geom.Lerp(line[i], line[i+1], t), in: r2.Vec{X: -d.Y, Y: d.X}})
	}
	return out
}

// within are places of the panels away from their rims, one in each cube of
// space.
func (w *worn) within() []point {
	m := w.mesh()
	taken := map[[3]int]bool{}
	var out []point
	for _, t := range m.T {
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		n := r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))
		if w.mirror {
			n = r3.Scale(-1, n) // the mirror image has its triangles inside out
		}
		for _, at := range overTriangle(a, b, c) {
			cube := [3]int{int(math.Floor(at.X / scattered)), int(math.Floor(at.Y / scattered)), int(math.Floor(at.Z / scattered))}
			if !taken[cube] {
				taken[cube] = true
				out = append(out, point{at: at, normal: n})
			}
		}
	}
	return out
}

// overTriangle are places all over a triangle, no farther apart than scattered.
func overTriangle(a, b, c r3.Vec) []r3.Vec {
	for geom.Dist(a, b) < max(geom.Dist(b, c), geom.Dist(c, a)) { // the longest side first
		a, b, c = b, c, a
	}
	n := int(math.Ceil(geom.Dist(a, b) / scattered))
	high := r3.Norm(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) / geom.Dist(a, b)
	rows := max(int(math.Ceil(high/scattered)), 1)
	var out []r3.Vec
	for j := range rows {
		v := (float64(j) + 1.0/3) / float64(rows)
		left, right := geom.Lerp(a, c, v), geom.Lerp(b, c, v)
		for i := range n {
			out = append(out, geom.Lerp(left, right, (float64(i)+0.5)/float64(n)))
		}
	}
	return out
}

// foam is a place and its outward normal in body axes, so far in from the rim;
// false where there is no foam.
func (w *worn) foam(s *spot, in float64) (at, normal r3.Vec, ok bool) {
	if !s.panel.Covers(r2.Add(s.at, r2.Scale(in+nudge, s.in))) {
		return at, normal, false
	}
	return w.lifted(s, in)
}

func (w *worn) lifted(s *spot, in float64) (at, normal r3.Vec, ok bool) {
	if at, normal, ok = lift(&s.panel.Surface, r2.Add(s.at, r2.Scale(in+nudge, s.in))); !ok {
		return at, normal, false
	}
	at, normal = s.copy.Point(at), s.copy.Dir(normal)
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
func (w *worn) thick(p point) [2]r3.Vec {
	t, k := w.piece.Thickness, w.piece.K
	return [2]r3.Vec{r3.Add(p.at, r3.Scale((1-k)*t, p.normal)), r3.Sub(p.at, r3.Scale(k*t, p.normal))}
}
