package fit

import (
	"fmt"
	"math"
	"slices"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// putOn tells whether a piece that does not open can be drawn on.
func putOn(p *pattern.Piece, form *body.Form) []report.Finding {
	switch p.Segment {
	case body.Head, body.Forearm, body.Shank:
		if opens(p) {
			return nil
		}
	}
	switch p.Segment {
	case body.Head:
		return overHead(p, form)
	case body.Forearm:
		return overLimb(p, form, "hand girth", "hand")
	case body.Shank:
		return overLimb(p, form, "heel-ankle girth", "heel")
	}
	return nil
}

// opens tells whether the piece has a gap, or does not go all round.
func opens(p *pattern.Piece) bool {
	for _, panel := range p.Panels {
		for _, e := range panel.Edges {
			if e.Gap || e.Kind == pattern.Closure {
				return true
			}
		}
	}
	return !goesRound(p)
}

// goesRound tells whether a piece covers the whole turn about the axis of its
// frame anywhere: no gap seen from there is wider than a sixth of the turn.
func goesRound(p *pattern.Piece) bool {
	foam := inside(p)
	low, high := levels(foam)
	for _, share := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		var angles []float64
		for _, q := range crossings(foam, low+share*(high-low)) {
			angles = append(angles, math.Atan2(q.Y, q.X))
		}
		slices.Sort(angles)
		widest := 0.0
		for i, a := range angles {
			next := angles[(i+1)%len(angles)]
			widest = max(widest, math.Mod(next-a+4*math.Pi, 2*math.Pi))
		}
		if len(angles) > 2 && widest < math.Pi/3 {
			return true
		}
	}
	return false
}

// spare is the girth that an opening must have over what passes through it
// (common practice, no source).
const spare = 20.0

// overLimb compares the narrowest girth inside the piece with what must pass.
func overLimb(p *pattern.Piece, form *body.Form, size body.Name, what string) []report.Finding {
	m, ok := form.Measurements().Get(size, body.Both)
	if !ok {
		return nil
	}
	least := math.Inf(1)
	mesh := inside(p)
	low, high := levels(mesh)
	for y := low + 5; y < high-5; y += 10 {
		least = min(least, geom.Perimeter(section(mesh, y)))
	}
	if least >= m.Value+spare {
		return nil
	}
	return []report.Finding{{Level: report.Problem, Subject: p.Name,
		Said: fmt.Sprintf("it does not open, and its narrowest girth inside is %s; the %s needs %s (%s ± %s and %s to spare).",
			units.Format(least, p.Units), what, units.Format(m.Value+spare, p.Units), units.Format(m.Value, p.Units), units.Format(m.HalfWidth(), p.Units), units.Format(spare, p.Units)),
		Perhaps: "Give the piece a gap, or more ease."}}
}

// overHead passes the head up through the piece: at every level the inner face
// must go round all of the head, and what is worn on it, that lies above.
func overHead(p *pattern.Piece, form *body.Form) []report.Finding {
	part, ok := form.Part(body.Head, body.Both)
	if !ok {
		return nil
	}
	head, foam := part.Worn(), inside(p)
	low, high := levels(foam)
	var at []float64
	for y := low + 2; y < high; y += 5 {
		at = append(at, y)
	}
	tight, where := 0.0, 0.0
	for i, above := range hullsAbove(head, at) {
		if len(above) < 3 {
			break
		}
		for _, p := range crossings(foam, at[i]) {
			if !geom.Inside(above, p) {
				continue
			}
			if over := geom.DistToRing(above, p); over > tight {
				tight, where = over, at[i]
			}
		}
	}
	if tight < 1 { // what a millimetre of foam gives
		return nil
	}
	side := "above"
	if where < 0 {
		side = "below"
	}
	return []report.Finding{{Level: report.Problem, Subject: p.Name,
		Said: fmt.Sprintf("the head does not pass into it: %s %s the ear the foam is %s too narrow for what is above, taken as rigid.",
			units.Format(math.Abs(where), p.Units), side, units.Format(tight, p.Units)),
		Perhaps: "Let the piece open, shorten it so that it ends higher, or give it more ease."}}
}

// inside is the inner face of a piece, in piece axes, as if it had no openings:
// they only make more room.
func inside(p *pattern.Piece) geom.Mesh {
	return faces(p, -p.K*p.Thickness, func(panel *pattern.Panel) geom.Mesh {
		return geom.Mesh{V: panel.Surface.Bent, T: panel.Surface.T}
	})
}

// faces are a piece's panels, all copies, moved out by d.
func faces(p *pattern.Piece, d float64, of func(*pattern.Panel) geom.Mesh) geom.Mesh {
	var all []geom.Mesh
	for i := range p.Panels {
		m := shifted(of(&p.Panels[i]), d)
		for _, c := range p.CopiesOf(&p.Panels[i]) {
			all = append(all, c.Mesh(m))
		}
	}
	return geom.Together(all...)
}

// shifted moves a surface along its triangles' normals.
func shifted(m geom.Mesh, d float64) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, 0, 3*len(m.T)), T: make([][3]int, len(m.T))}
	for i, t := range m.T {
		a, b, c := m.V[t[0]], m.V[t[1]], m.V[t[2]]
		n := r3.Scale(d, r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))))
		out.V, out.T[i] = append(out.V, r3.Add(a, n), r3.Add(b, n), r3.Add(c, n)), [3]int{3 * i, 3*i + 1, 3*i + 2}
	}
	return out
}

func levels(m geom.Mesh) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range m.V {
		low, high = min(low, v.Y), max(high, v.Y)
	}
	return low, high
}

// crossings are points of a mesh at a level, as (z, x).
func crossings(m geom.Mesh, level float64) []r2.Vec {
	var pts []r2.Vec
	for _, s := range geom.Slice(m, r3.Vec{Y: level}, r3.Vec{Y: 1}) {
		pts = append(pts, r2.Vec{X: s[0].Z, Y: s[0].X}, r2.Vec{X: s[1].Z, Y: s[1].X})
	}
	return pts
}

// section is the hull of a mesh at a level.
func section(m geom.Mesh, level float64) []r2.Vec {
	pts := crossings(m, level)
	if len(pts) < 3 {
		return nil
	}
	return geom.Hull(pts)
}

// hullsAbove are the hulls of all that lies at or above each of some rising
// levels.
func hullsAbove(m geom.Mesh, levels []float64) [][]r2.Vec {
	out := make([][]r2.Vec, len(levels))
	var above []r2.Vec
	higher := math.Inf(1)
	for i, level := range slices.Backward(levels) {
		for _, v := range m.V {
			if v.Y >= level && v.Y < higher {
				above = append(above, r2.Vec{X: v.Z, Y: v.X})
			}
		}
		above, higher = geom.Hull(above), level
		out[i] = above
	}
	return out
}
