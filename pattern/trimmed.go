package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Covers tells whether there is foam at a place of the flat panel.
func (p *Panel) Covers(at r2.Vec) bool {
	if !geom.Inside(p.Outline, at) && geom.DistToRing(p.Outline, at) > geom.Coincident {
		return false
	}
	for _, h := range p.Holes {
		if geom.Inside(h, at) {
			return false
		}
	}
	return true
}

// cut tells whether an opening or a drawn rim has made the edge.
func (e *Edge) cut() bool { return e.Kind == Opening || e.Drawn }

// opened tells whether an opening or a drawn rim has taken something of the panel
// away.
func (p *Panel) opened() bool {
	for _, e := range p.Edges {
		if e.cut() {
			return true
		}
	}
	return len(p.Holes) > 0
}

// reflect turns a piece into its mirror image about x = 0.
func (p *Piece) reflect() {
	for i := range p.Panels {
		p.Panels[i].reflect()
	}
	for i := range p.Seams {
		for j := range p.Seams[i].Line {
			p.Seams[i].Line[j].X = -p.Seams[i].Line[j].X
		}
		for j := range p.Seams[i].Spans {
			for k := range p.Seams[i].Spans[j].Sides {
				ref := &p.Seams[i].Spans[j].Sides[k]
				ref.Edge = len(p.Panels[ref.Panel].Edges) - 1 - ref.Edge
			}
		}
	}
}

func (p *Panel) reflect() {
	flip := func(pts []r2.Vec) []r2.Vec {
		out := geom.Reversed(pts)
		for i := range out {
			out[i].X = -out[i].X
		}
		return out
	}
	p.Outline = flip(p.Outline)
	for i := range p.Holes {
		p.Holes[i] = flip(p.Holes[i])
	}
	for i := range p.Folds {
		p.Folds[i].Line = flip(p.Folds[i].Line)
	}
	for i := range p.Marks {
		p.Marks[i].Line = flip(p.Marks[i].Line)
	}
	if p.Formed != nil {
		f := *p.Formed
		f.Worst.X = -f.Worst.X
		p.Formed = &f
	}
	n := len(p.Edges)
	edges := make([]Edge, n)
	for i, e := range p.Edges {
		e.Line, e.Along = flip(e.Line), !e.Along
		if e.Face != nil {
			e.Face = flip(e.Face)
		}
		e.Notches = append([]Notch(nil), e.Notches...)
		for j := range e.Notches {
			e.Notches[j].P.X, e.Notches[j].In.X = -e.Notches[j].P.X, -e.Notches[j].In.X
		}
		edges[n-1-i] = e
	}
	p.Edges = edges
	s := Surface{}
	for i := range p.Surface.Flat {
		f, b := p.Surface.Flat[i], p.Surface.Bent[i]
		s.Flat = append(s.Flat, r2.Vec{X: -f.X, Y: f.Y})
		s.Bent = append(s.Bent, r3.Vec{X: -b.X, Y: b.Y, Z: b.Z})
	}
	for _, t := range p.Surface.T {
		s.T = append(s.T, [3]int{t[0], t[2], t[1]})
	}
	p.Surface = s
}

// Trimmed is the bent panel as openings have left it: a mesh of the neutral
// surface in piece axes. It is the outline laid out in triangles and lifted
// back, so it follows the surface within the size of those triangles.
func (p *Panel) Trimmed() geom.Mesh {
	var out geom.Mesh
	s := &p.Surface
	for _, t := range s.T {
		in := 0
		for k := range 3 {
			if p.Covers(s.Flat[t[k]]) {
				in++
			}
		}
		if in == 3 && !p.cutIn(t) {
			out.Append(geom.Mesh{V: []r3.Vec{s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]}, T: [][3]int{{0, 1, 2}}})
			continue
		}
		p.appendSplit(&out, [3]r2.Vec{s.Flat[t[0]], s.Flat[t[1]], s.Flat[t[2]]}, [3]r3.Vec{s.Bent[t[0]], s.Bent[t[1]], s.Bent[t[2]]}, 0)
	}
	return out
}

// cutIn tells whether the edge of what was cut away comes into a triangle.
func (p *Panel) cutIn(t [3]int) bool {
	tri := []r2.Vec{p.Surface.Flat[t[0]], p.Surface.Flat[t[1]], p.Surface.Flat[t[2]]}
	for _, h := range p.Holes {
		for _, q := range h {
			if geom.Inside(tri, q) {
				return true
			}
		}
	}
	for _, e := range p.Edges {
		if !e.cut() {
			continue
		}
		for i := 0; i+1 < len(e.Line); i++ {
			if geom.Inside(tri, geom.Lerp(e.Line[i], e.Line[i+1], 0.5)) {
				return true
			}
		}
	}
	return false
}

// smallest (detail): triangles at an opening are quartered down to this side,
// which is as fine as a drawing shows.
const smallest = 3.0

// appendSplit adds the covered part of a triangle, quartering it where an
// opening's edge runs through.
func (p *Panel) appendSplit(out *geom.Mesh, flat [3]r2.Vec, bent [3]r3.Vec, depth int) {
	side := max(geom.Dist(flat[0], flat[1]), geom.Dist(flat[1], flat[2]), geom.Dist(flat[2], flat[0]))
	if side < smallest || depth > 7 {
		c := r2.Scale(1./3, r2.Add(r2.Add(flat[0], flat[1]), flat[2]))
		if p.Covers(c) {
			out.Append(geom.Mesh{V: bent[:], T: [][3]int{{0, 1, 2}}})
		}
		return
	}
	// The longest side is halved, so that slivers do not stay slivers.
	k := 0
	for i := 1; i < 3; i++ {
		if geom.Dist(flat[i], flat[(i+1)%3]) > geom.Dist(flat[k], flat[(k+1)%3]) {
			k = i
		}
	}
	a, b, c := k, (k+1)%3, (k+2)%3
	mf, mb := geom.Lerp(flat[a], flat[b], 0.5), geom.Lerp(bent[a], bent[b], 0.5)
	p.appendSplit(out, [3]r2.Vec{flat[a], mf, flat[c]}, [3]r3.Vec{bent[a], mb, bent[c]}, depth+1)
	p.appendSplit(out, [3]r2.Vec{mf, flat[b], flat[c]}, [3]r3.Vec{mb, bent[b], bent[c]}, depth+1)
}
