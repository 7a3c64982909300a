package fit

import (
	"math"
	"sync"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// worn is a rigid part of what is worn, on the body: a piece, or one lame of
// its run. Of a pair, the right one is the left one's mirror image.
type worn struct {
	piece  *pattern.Piece
	side   body.Side // that it is worn on: Both on head, neck and trunk
	mirror bool
	lame   int   // which of the run; 0: all that is no lame
	lames  int   // how many the run has
	rest   *worn // of a lame: what of its piece is no lame; nil: all of it are

	mesh    func() geom.Mesh     // neutral surface, body axes
	surface func() *geom.Locator // the same
	points  func() []point       // where it may meet others
	box     func() box           // round those, with both faces
}

// worn is such a part of the piece.
func (h *held) worn(side body.Side, mirror bool, lame, lames int) *worn {
	w := &worn{piece: h.Piece, side: side, mirror: mirror, lame: lame, lames: lames}
	w.mesh = sync.OnceValue(func() geom.Mesh { return w.makeMesh(h.trimmed()) })
	w.surface = sync.OnceValue(func() *geom.Locator { return geom.NewLocator(w.mesh()) })
	w.points = sync.OnceValue(func() []point { return append(w.rim(), w.within()...) })
	w.box = sync.OnceValue(func() box { return boxRound(w.points(), w.piece.Thickness) })
	return w
}

// panels are those of this part of the piece.
func (w *worn) panels() []*pattern.Panel {
	var out []*pattern.Panel
	for i := range w.piece.Panels {
		if w.piece.Panels[i].Lame == w.lame {
			out = append(out, &w.piece.Panels[i])
		}
	}
	return out
}

// inBody brings a point of the piece into body axes.
func (w *worn) inBody(p r3.Vec) r3.Vec {
	p = w.piece.Frame.Point(p)
	if w.mirror {
		p.X = -p.X
	}
	return p
}

// makeMesh is the neutral surface in body axes.
func (w *worn) makeMesh(trimmed map[*pattern.Panel]geom.Mesh) geom.Mesh {
	var all []geom.Mesh
	for _, p := range w.panels() {
		for _, c := range w.piece.CopiesOf(p) {
			all = append(all, c.Mesh(trimmed[p]))
		}
	}
	m := geom.Together(all...)
	for i, v := range m.V {
		m.V[i] = w.inBody(v)
	}
	return m
}

// middle of the part, body axes.
func (w *worn) middle() r3.Vec { return w.box().middle() }

// box is upright in body axes.
type box struct{ low, high r3.Vec }

func boxRound(pts []point, grow float64) box {
	inf := math.Inf(1)
	b := box{r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}}
	for _, p := range pts {
		b.low = r3.Vec{X: min(b.low.X, p.at.X-grow), Y: min(b.low.Y, p.at.Y-grow), Z: min(b.low.Z, p.at.Z-grow)}
		b.high = r3.Vec{X: max(b.high.X, p.at.X+grow), Y: max(b.high.Y, p.at.Y+grow), Z: max(b.high.Z, p.at.Z+grow)}
	}
	return b
}

func (b box) middle() r3.Vec { return r3.Scale(0.5, r3.Add(b.low, b.high)) }

func (b box) corners() [8]r3.Vec {
	var out [8]r3.Vec
	for i := range out {
		out[i] = b.low
		if i&1 > 0 {
			out[i].X = b.high.X
		}
		if i&2 > 0 {
			out[i].Y = b.high.Y
		}
		if i&4 > 0 {
			out[i].Z = b.high.Z
		}
	}
	return out
}

// apart tells whether two boxes are farther from each other than so much.
func (b box) apart(o box, by float64) bool {
	return b.low.X > o.high.X+by || o.low.X > b.high.X+by ||
		b.low.Y > o.high.Y+by || o.low.Y > b.high.Y+by ||
		b.low.Z > o.high.Z+by || o.low.Z > b.high.Z+by
}
