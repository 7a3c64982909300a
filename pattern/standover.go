package pattern

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// onPiece stands where another piece of the costume does, over it.
func onPiece(f template.Frame, form *body.Form, side body.Side, made finished) (*stand, error) {
	others := made.wornWith(f.Over, side)
	if len(others) == 0 {
		return nil, nothingUnder(f.Over, made, side)
	}
	s, err := standsAt(others[0].stood.by, form, side, made)
	if err != nil {
		return nil, err
	}
	if f.Segment != "" {
		s.segment, s.floats = f.Segment, ""
	}
	for _, p := range others {
		s.room = max(s.room, p.Asked)
		m := p.outerFace(side)
		for i, v := range m.V {
			m.V[i] = s.frame.Local(v)
		}
		if s.mirrored {
			m = m.MirroredX()
		}
		s.under.Append(m)
	}
	return s, nil
}

// outerFace is the outer face of a piece as it is worn on a side, in body
// axes: its bent panels, whole, moved out by what lies outside their neutral
// surface. Of a pair, Both gives the left and the right one.
func (p *Piece) outerFace(side body.Side) geom.Mesh {
	var m geom.Mesh
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, c := range p.CopiesOf(panel) {
			m.Append(c.Mesh(geom.Mesh{V: panel.Surface.Bent, T: panel.Surface.T}))
		}
	}
	m = movedOut(welded(m), (1-p.K)*p.Thickness)
	for i, v := range m.V {
		m.V[i] = p.Frame.Point(v)
	}
	if p.Copies == 2 && side == body.Right {
		return m.MirroredX()
	}
	if p.Copies == 2 && side == body.Both {
		m.Append(m.MirroredX())
	}
	return m
}

// welded makes vertices at one place one, so that a face goes on over seams
// and folds.
func welded(m geom.Mesh) geom.Mesh {
	const cell = 1e-6 // rounding: what meets at a seam shares its points
	type place [3]int64
	at := map[place]int{}
	out := geom.Mesh{}
	number := make([]int, len(m.V))
	for i, v := range m.V {
		k := place{int64(math.Round(v.X / cell)), int64(math.Round(v.Y / cell)), int64(math.Round(v.Z / cell))}
		n, ok := at[k]
		if !ok {
			n = len(out.V)
			at[k] = n
			out.V = append(out.V, v)
		}
		number[i] = n
	}
	for _, t := range m.T {
		w := [3]int{number[t[0]], number[t[1]], number[t[2]]}
		if w[0] != w[1] && w[1] != w[2] && w[2] != w[0] {
			out.T = append(out.T, w)
		}
	}
	return out
}

// movedOut moves a face out by d from each of its triangles, mitred where they
// meet at up to 120°.
func movedOut(m geom.Mesh, d float64) geom.Mesh {
	normals := geom.VertexNormals(m)
	mitre := make([]float64, len(m.V))
	for i := range mitre {
		mitre[i] = 1
	}
	for _, t := range m.T {
		n := normalOf(m.V[t[0]], m.V[t[1]], m.V[t[2]])
		for _, v := range t {
			mitre[v] = min(mitre[v], r3.Dot(n, normals[v]))
		}
	}
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, p := range m.V {
		out.V[i] = r3.Add(p, r3.Scale(d/max(mitre[i], 0.5), normals[i]))
	}
	return out
}

// under measures how far a piece's inner face keeps from the outer face of
// those that it lies over.
type under struct {
	mesh    geom.Mesh
	outward []r3.Vec // normals at its vertices
	locator *geom.Locator
	rim     map[[2]int]bool // edges of one triangle only
}

func newUnder(m geom.Mesh) *under {
	if len(m.T) == 0 {
		return nil
	}
	u := &under{mesh: m, outward: geom.VertexNormals(m), locator: geom.NewLocator(m), rim: map[[2]int]bool{}}
	for _, t := range m.T {
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			if u.rim[[2]int{b, a}] {
				delete(u.rim, [2]int{b, a})
			} else {
				u.rim[[2]int{a, b}] = true
			}
		}
	}
	return u
}

// nearer is the lesser of least and the distance of a point: negative inside.
// Past a rim there is no inside.
func (u *under) nearer(p r3.Vec, least float64) float64 {
	if u.locator.Away(p) > max(least, 0) {
		return least
	}
	d, q := u.locator.Distance(p)
	if d < 0 && u.onRim(q) {
		d = -d
	}
	return min(d, least)
}

func (u *under) onRim(q r3.Vec) bool {
	tri, _ := u.locator.Nearest(q)
	t := u.mesh.T[tri]
	w := geom.Barycentric(q, u.mesh.V[t[0]], u.mesh.V[t[1]], u.mesh.V[t[2]])
	for k := range 3 {
		if w[(k+2)%3] < 1e-6 && u.rim[[2]int{t[k], t[(k+1)%3]}] {
			return true
		}
	}
	return false
}

// keepsOff is how far the inner face keeps from the pieces that it lies over.
func (b *builder) keepsOff(p *Piece) float64 {
	if b.under == nil {
		return 0
	}
	least := math.Inf(1)
	b.innerFace(p, func(panel *Panel, tri int, w [3]float64, at r3.Vec, _ *known) {
		if d := b.under.nearer(at, least); d < least && (!panel.opened() || panel.Covers(blend2(panel.Surface.Flat, panel.Surface.T[tri], w))) {
			least = d
		}
	})
	return least
}

// tooNear is how far a piece must still be raised for the distances that were
// asked for; 0 if it keeps them.
func (b *builder) tooNear(p *Piece) float64 {
	most := 0.0
	if b.spine != nil { // its rings stand where they are drawn
		return 0
	}
	if asked := p.Asked + p.Reserve(); p.Clearance < near*asked {
		most = asked - p.Clearance
	}
	if b.under != nil && p.Gap < near*p.GapAsked-geom.Detail {
		most = max(most, p.GapAsked-p.Gap)
	}
	return most
}

// judgeGap says if a piece does not keep its distance from what it lies over.
func (b *builder) judgeGap(p *Piece) {
	if b.under == nil || p.Gap >= held*p.GapAsked-geom.Detail {
		return
	}
	b.doubtf("it comes within %s of the %s that it lies over; %s were asked for.", units.FormatFine(p.Gap, p.Units), b.template.Frame.Over, units.FormatFine(p.GapAsked, p.Units))
}

// nothingUnder says what a piece lies over and the costume does not have.
func nothingUnder(name string, made finished, side body.Side) error {
	if len(made(name)) > 0 {
		return fmt.Errorf("it lies over the %s, and the costume has none on the %s; add that one with side: %s or as a pair, or leave this one out there", name, side, side)
	}
	return fmt.Errorf("it lies over the %s, and the costume has none; add \"- piece: %s\" to its pieces, or leave this one out", name, name)
}
