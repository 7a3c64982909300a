package booklet

import (
	"math"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/view"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func area(m geom.Mesh) float64 {
	sum := 0.0
	for _, t := range m.T {
		sum += r3.Norm(r3.Cross(r3.Sub(m.V[t[1]], m.V[t[0]]), r3.Sub(m.V[t[2]], m.V[t[0]]))) / 2
	}
	return sum
}

func TestPieceScene_standsWhereItIsWorn(t *testing.T) {
	p := tube(4)
	for _, f := range PieceScene(p).Faces {
		for _, v := range f.Mesh.V {
			if d := math.Hypot(v.X-300, v.Z); d > tubeRadius+1e-9 || d < tubeRadius-2 || v.Y < 900-1e-9 || v.Y > 900+tubeHeight+1e-9 {
				t.Fatalf("a corner at %v is not on the tube", v)
			}
		}
	}
}

// Through the hole in the front the far side is seen; with the front panel
// whole it is not.
func TestPieceScene_holesAreSeenThrough(t *testing.T) {
	front := view.Camera{Yaw: math.Pi / 4}
	box := draw.Rect{Max: r2.Vec{X: 100, Y: 100}}
	far := r3.Vec{X: 300 - 0.9*tubeRadius*math.Sqrt2/2, Y: 900 + tubeHeight*0.7, Z: -0.9 * tubeRadius * math.Sqrt2 / 2}
	if p := tube(4); !view.New(PieceScene(p), front, box).Visible(far) {
		t.Error("the far side is hidden behind a hole")
	}
	p := tube(4)
	p.Panels[0].Holes = nil
	if view.New(PieceScene(p), front, box).Visible(far) {
		t.Error("the far side shows through a whole panel")
	}
}

// A mirrored panel, cut twice from one template, is on both sides.
func TestPieceScene_mirrorImagesAreThere(t *testing.T) {
	p := tube(4)
	p.Panels = p.Panels[:1]
	p.Panels[0].Copies, p.Panels[0].Flipped = 2, 1
	l := pieceScene(p)
	s, labels := l.scene, l.labels
	if len(s.Faces) != 2 {
		t.Fatalf("%d faces, want the panel and its mirror image", len(s.Faces))
	}
	low := math.Inf(1)
	for _, v := range s.Faces[1].Mesh.V {
		low = min(low, v.X-300)
	}
	if math.Abs(low+tubeRadius) > 1e-9 {
		t.Errorf("the mirror image reaches to %.3f, want %.3f", low, -tubeRadius)
	}
	for _, l := range labels {
		for i, n := range l.faces {
			if out := r3.Sub(l.at[i], r3.Vec{X: 300, Y: l.at[i].Y}); r3.Dot(n, out) <= 0 {
				t.Errorf("label %s: its normal %v points inwards at %v", l.text, n, out)
			}
		}
	}
	p.Copies, p.Panels[0].Copies, p.Panels[0].Flipped = 2, 2, 1 // a pair of pieces, one template each
	if s := PieceScene(p); len(s.Faces) != 1 {
		t.Errorf("one of a pair has %d faces, want 1", len(s.Faces))
	}
}

// The body behind a piece is drawn, and the piece still fills the drawing.
func TestOnBody_keepsThePieceInFocus(t *testing.T) {
	s := PieceScene(tube(4))
	skin := geom.Mesh{V: []r3.Vec{{}, {X: 2000}, {Y: 2000}}, T: [][3]int{{0, 1, 2}}}
	box := draw.Rect{Max: r2.Vec{X: 100, Y: 100}}
	alone := view.Scale(s, fromFront, box)
	if got := view.Scale(OnBody(s, skin), fromFront, box); math.Abs(got-alone) > 1e-9 {
		t.Errorf("the body changes the scale from %.4f to %.4f", alone, got)
	}
}
