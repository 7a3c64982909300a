package booklet

import (
	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// label is a text that belongs to a place of a piece, body axes.
type label struct {
	text  string
	seam  bool      // a seam's number, else a panel's label
	at    []r3.Vec  // places where it may stand
	faces []r3.Vec  // the outward normal at each
	worth []float64 // how good a place each is when seen square on; of a panel, also its room in mm
	rim   []r3.Vec  // of a flat part, places on its edges
}

// PieceScene is a piece as it is worn, in body axes: its panels bent and
// trimmed, with their edges, seams and folds. Panels cut from one template and
// its mirror image are both there. Panels without a surface (flats, straps) are
// not.
func PieceScene(p *pattern.Piece) view.Scene { return pieceScene(p).scene }

// labelledScene is a piece as it is worn, with the labels of its panels and
// seams, and the cuts through the foam at its free edges.
type labelledScene struct {
	scene  view.Scene
	labels []label
	cuts   view.Scene
}

// OnBody adds the body's skin to a scene, in grey outline. What the drawing
// must show stays the same.
func OnBody(s view.Scene, skin geom.Mesh) view.Scene {
	if s.Focus == nil {
		for _, f := range s.Faces {
			s.Focus = append(s.Focus, f.Mesh.V...)
		}
	}
	faces := append([]view.Face(nil), s.Faces...)
	s.Faces = append(faces, view.Face{Mesh: skin, Silhouette: view.Ghost})
	return s
}

func pieceScene(p *pattern.Piece) labelledScene {
	var s labelledScene
	for i := range p.Panels {
		panel := &p.Panels[i]
		if len(panel.Surface.T) == 0 || len(panel.Edges) == 0 {
			continue
		}
		l := lifted(panel)
		for _, c := range p.CopiesOf(panel) {
			w := worn{bent: l, frame: p.Frame, copy: c}
			w.addTo(&s)
			w.addCuts(&s.cuts, p.Foam(panel))
		}
	}
	return s
}

// worn is a copy of a panel at its place on the body.
type worn struct {
	*bent
	frame geom.Frame
	copy  pattern.Copy
}

// place brings a point from piece axes to the body.
func (w worn) place(q r3.Vec) r3.Vec { return w.frame.Point(w.copy.Point(q)) }

// dir brings a direction from piece axes to the body.
func (w worn) dir(d r3.Vec) r3.Vec { return w.frame.Dir(w.copy.Dir(d)) }

func (w worn) placed(line []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(line))
	for i, q := range line {
		out[i] = w.place(q)
	}
	return out
}

func (w worn) addTo(s *labelledScene) {
	s.scene.Faces = append(s.scene.Faces, view.Face{
		Mesh: geom.Mesh{V: w.placed(w.mesh.V), T: w.outwards(w.mesh.T)}, Silhouette: view.Outline, Joined: true})
	for _, l := range w.lines {
		s.scene.Lines = append(s.scene.Lines, view.Line{Points: w.placed(l.at), Weight: l.weight})
	}
	for _, l := range w.labels {
		faces := make([]r3.Vec, len(l.faces))
		for i, n := range l.faces {
			faces[i] = w.dir(n)
		}
		l.at, l.faces, l.rim = w.placed(l.at), faces, w.placed(l.rim)
		s.labels = append(s.labels, l)
	}
}

// outwards are triangles of the panel's as they run on the copy.
func (w worn) outwards(triangles [][3]int) [][3]int {
	if !w.copy.Mirrored {
		return triangles
	}
	out := make([][3]int, len(triangles))
	for i, t := range triangles {
		out[i] = [3]int{t[0], t[2], t[1]}
	}
	return out
}
