package booklet

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// label is a text that belongs to a place of a piece, body axes.
type label struct {
	text  string
	seam  bool      // a seam's number, else a panel's label
	at    []r3.Vec  // places where it may stand
	faces []r3.Vec  // the outward normal at each
	worth []float64 // how good a place each is when seen square on; of a panel, also its room in mm
}

// PieceScene is a piece as it is worn, in body axes: its panels bent and
// trimmed, with their edges, seams and folds. Panels cut from one template and
// its mirror image are both there. Panels without a surface (flats, straps) are
// not.
func PieceScene(p *pattern.Piece) view.Scene { return pieceScene(p).scene }

// labelledScene is a piece as it is worn, with the labels of its panels and
// seams.
type labelledScene struct {
	scene  view.Scene
	labels []label
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
	var s view.Scene
	var labels []label
	for i := range p.Panels {
		panel := &p.Panels[i]
		if len(panel.Surface.T) == 0 || len(panel.Edges) == 0 {
			continue
		}
		lifter := panel.Surface.Lifter()
		for _, c := range p.CopiesOf(panel) {
			labels = worn{panel: panel, frame: p.Frame, copy: c, lifter: lifter}.addTo(&s, labels)
		}
	}
	return labelledScene{s, labels}
}

// worn is a copy of a panel at its place on the body.
type worn struct {
	panel *pattern.Panel
	frame geom.Frame
	copy  pattern.Copy

	lifter pattern.Lifter // of the panel's surface
}

// place brings a point from piece axes to the body.
func (w worn) place(q r3.Vec) r3.Vec {
	return w.frame.Point(w.copy.Point(q))
}

func (w worn) lift(line []r2.Vec) []r3.Vec {
	out := make([]r3.Vec, len(line))
	for i, q := range line {
		out[i] = w.place(w.lifter.Lift(q))
	}
	return out
}

// smallHole is the length round a hole that a heavy line would fill, mm.
const smallHole = 60.0

func (w worn) addTo(s *view.Scene, labels []label) []label {
	mesh := w.panel.Trimmed()
	for i, v := range mesh.V {
		mesh.V[i] = w.place(v)
	}
	if w.copy.Mirrored {
		for i, t := range mesh.T {
			mesh.T[i] = [3]int{t[0], t[2], t[1]}
		}
	}
	s.Faces = append(s.Faces, view.Face{Mesh: mesh, Silhouette: view.Outline})
	for _, e := range w.panel.Edges {
		s.Lines = append(s.Lines, view.Line{Points: w.lift(e.Line), Weight: weight(e.Kind)})
		if e.Seam > 0 && e.Kind != pattern.Hinge {
			labels = append(labels, w.seamLabel(e))
		}
	}
	for _, h := range w.panel.Holes {
		ring := append(append([]r2.Vec(nil), h...), h[0])
		weight := view.Outline
		if geom.Perimeter(h) < smallHole {
			weight = view.Seam
		}
		s.Lines = append(s.Lines, view.Line{Points: w.lift(ring), Weight: weight})
	}
	for _, f := range w.panel.Folds {
		// Straight between its ends: in the groove there is no surface to follow.
		ends := []r2.Vec{f.Line[0], f.Line[len(f.Line)-1]}
		s.Lines = append(s.Lines, view.Line{Points: w.lift(ends), Weight: view.Fold})
	}
	l := label{text: w.panel.Label}
	for _, r := range roomy(w.panel) {
		w.stand(&l, r.at, r.room)
	}
	return append(labels, l)
}

func weight(k pattern.EdgeKind) view.Weight {
	switch k {
	case pattern.Butt, pattern.Lap, pattern.Hinge:
		return view.Seam
	}
	return view.Outline
}

// stand lets a label stand at a place of the panel.
func (w worn) stand(l *label, at r2.Vec, worth float64) {
	p, n := w.on(at)
	if n == (r3.Vec{}) {
		return
	}
	l.at, l.faces, l.worth = append(l.at, p), append(l.faces, n), append(l.worth, worth)
}

// on is a place of the panel on the body, with the outward normal there; that
// is zero where the surface has none.
func (w worn) on(at r2.Vec) (p, n r3.Vec) {
	p, n = w.lifter.LiftWithNormal(at)
	return w.place(p), w.frame.Dir(w.copy.Dir(n))
}

func (w worn) seamLabel(e pattern.Edge) label {
	l := label{text: fmt.Sprint(e.Seam), seam: true}
	for i, share := range []float64{0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88} {
		w.stand(&l, geom.At(e.Line, share*geom.Length(e.Line)), 1/float64(i+1))
	}
	return l
}

// spot is a place inside a panel and how far it is from any border, mm.
type spot struct {
	at   r2.Vec
	room float64
}

// roomy lists places of a grid over a panel that are inside it. More room than
// a label needs is worth no more.
func roomy(p *pattern.Panel) []spot {
	const n, enough = 12, 40.0
	ring := p.Border()
	box := geom.Bounds(ring)
	centre := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	size := r2.Norm(r2.Sub(box.Max, box.Min))
	var out []spot
	for i := 1; i < n; i++ {
		for j := 1; j < n; j++ {
			q := r2.Vec{X: box.Min.X + (box.Max.X-box.Min.X)*float64(i)/n, Y: box.Min.Y + (box.Max.Y-box.Min.Y)*float64(j)/n}
			if room := roomAt(q, ring, p); room > 0 {
				nearCentre := 1 - 0.3*geom.Dist(q, centre)/size
				out = append(out, spot{q, min(room, enough) * nearCentre})
			}
		}
	}
	return out
}

// roomAt is how far a place is from any border or fold, 0 where there is no
// foam.
func roomAt(q r2.Vec, ring []r2.Vec, p *pattern.Panel) float64 {
	if !geom.Inside(ring, q) {
		return 0
	}
	room := geom.DistToRing(ring, q)
	for _, h := range p.Holes {
		if geom.Inside(h, q) {
			return 0
		}
		room = min(room, geom.DistToRing(h, q))
	}
	for _, f := range p.Folds {
		room = min(room, geom.DistToRing(f.Line, q))
	}
	return room
}
