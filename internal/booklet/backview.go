package booklet

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// behind is how far before the inner face straps are drawn, mm, so that no panel hides
// them.
const behind = 5.0

// backView is what a carried piece shows to whoever carries it, seen square on: its
// panels from inside, with the numbers of copies that are told apart, the patches and
// the straps between them. ok is false for pieces that are worn or have no straps.
func backView(p *pattern.Piece) (s labelledScene, from standpoint, ok bool) {
	if !p.Free || len(p.Straps) == 0 {
		return s, from, false
	}
	var looks r3.Vec
	ends := make([][]strapEnd, len(p.Straps))
	for i := range p.Panels {
		panel := &p.Panels[i]
		if len(panel.Surface.T) == 0 || len(panel.Edges) == 0 {
			continue
		}
		l := lifted(panel)
		for k, c := range p.CopiesOf(panel) {
			w := worn{bent: l, frame: p.Frame, copy: c}
			w.addTo(&s)
			w.addPatches(&s.scene, p, panel, k, ends)
			own := &s.labels[len(s.labels)-1] // a panel's own comes last
			switch apart := toldApart(panel); {
			case apart && c.Mirrored:
				own.text += " flipped"
				for j := range own.worth { // the longer name has room on half of a piece
					own.worth[j] *= 2
				}
			case apart && len(p.CopiesOf(panel)) > 2:
				own.text += fmt.Sprintf(" (%d)", k+1)
			}
			for j, n := range own.faces {
				looks, own.faces[j] = r3.Add(looks, n), r3.Scale(-1, n)
			}
		}
	}
	s.labels = slices.DeleteFunc(s.labels, func(l label) bool { return l.seam })
	for i, strap := range p.Straps {
		if len(ends[i]) == 2 {
			s.addBand(strap, ends[i][0], ends[i][1], r3.Unit(looks))
		}
	}
	from = standpoint{view.Camera{Yaw: math.Atan2(-looks.X, -looks.Z)}, "from behind, square on: the inner face"}
	if slices.ContainsFunc(s.labels, func(l label) bool { return l.text[len(l.text)-1] == ')' }) {
		from.says += "; in brackets the number of the copy"
	}
	return s, from, true
}

// toldApart tells whether not all copies of a panel have the same marks.
func toldApart(panel *pattern.Panel) bool {
	return slices.ContainsFunc(panel.Marks, func(m pattern.Mark) bool { return m.Only != "" })
}

// strapEnd is the edge of a patch that a strap leaves over, and places beyond its other
// edge for the strap's name, body axes.
type strapEnd struct {
	edge   [2]r3.Vec
	beyond []r3.Vec
}

// addPatches draws the patches of straps on a copy of a panel, and notes the ends of
// each of the piece's straps.
func (w worn) addPatches(s *view.Scene, p *pattern.Piece, panel *pattern.Panel, copy int, ends [][]strapEnd) {
	on := panel.Surface.Lifter()
	inside := func(q r2.Vec) r3.Vec {
		at, n := on.LiftWithNormal(q)
		return w.place(r3.Sub(at, r3.Scale(behind, n)))
	}
	for _, m := range panel.Marks {
		strap := slices.IndexFunc(p.Straps, func(s pattern.Strap) bool { return shows(m, s) })
		if strap < 0 || len(m.Axis) < 2 || len(m.Line) != 4 || !p.HasMark(panel, m, copy) {
			continue
		}
		var ring []r3.Vec
		for _, q := range geom.Resample(append(slices.Clone(m.Line), m.Line[0]), 40) {
			ring = append(ring, inside(q))
		}
		s.Lines = append(s.Lines, view.Line{Points: ring, Weight: view.Fold})
		u := r2.Unit(r2.Sub(m.Axis[1], m.Axis[0]))
		side := r2.Scale(geom.DistToSegment(m.Line[0], m.Axis[0], m.Axis[1]), r2.Vec{X: -u.Y, Y: u.X})
		end := strapEnd{edge: [2]r3.Vec{inside(r2.Add(m.Axis[1], side)), inside(r2.Sub(m.Axis[1], side))}}
		for _, off := range []float64{15, 25, 35} {
			end.beyond = append(end.beyond, inside(r2.Sub(m.Axis[0], r2.Scale(off, u))))
		}
		ends[strap] = append(ends[strap], end)
	}
}

// addBand draws a strap as a straight band from one patch to another, with its name.
func (s *labelledScene) addBand(strap pattern.Strap, from, to strapEnd, looks r3.Vec) {
	a, z := from.edge, to.edge
	if r3.Dot(r3.Sub(a[1], a[0]), r3.Sub(z[1], z[0])) < 0 {
		z[0], z[1] = z[1], z[0]
	}
	ring := []r3.Vec{a[0], a[1], z[1], z[0]}
	s.scene.Faces = append(s.scene.Faces, view.Face{Mesh: geom.Mesh{V: ring, T: [][3]int{{0, 1, 2}, {0, 2, 3}}}})
	s.scene.Lines = append(s.scene.Lines, view.Line{Points: append(ring[:4:4], a[0]), Weight: view.Outline})
	name := label{text: fmt.Sprintf("%s %d", strap.Name, strap.Number), seam: true, at: slices.Concat(from.beyond, to.beyond)}
	for i := range name.at {
		name.faces, name.worth = append(name.faces, r3.Scale(-1, looks)), append(name.worth, 1/float64(i+1))
	}
	s.labels = append(s.labels, name)
}
