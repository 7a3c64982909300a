package booklet

import (
	"math"
	"slices"
	"testing"

	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// figureOf is a flat figure so high, that stands on the floor.
func figureOf(high float64) geom.Mesh {
	return geom.Mesh{V: []r3.Vec{{X: -300}, {X: 300}, {Y: high}}, T: [][3]int{{0, 1, 2}}}
}

// Among others a piece stays what the drawing shows, in its own tone and with all of
// its lines; the others are lighter and without their folds, and the skin stands a
// little farther from the viewer than it is.
func TestAmong_thePieceStandsOut(t *testing.T) {
	p, other := tube(4), tube(3)
	flat := other.Panels[0].Surface.Flat // folded along its second rung
	other.Panels[0].Folds = []pattern.Fold{{Line: []r2.Vec{flat[2], flat[3]}, Kind: "grooved inside", Angle: 0.5}}
	s := PieceScene(p)
	s.Focus = []r3.Vec{{X: 1}}
	cam, skin := view.Camera{Yaw: 0.5, Pitch: 0.2}, figureOf(1700)
	out := Among(s, []pattern.Piece{*other}, skin, cam)
	if len(s.Focus) != 1 {
		t.Error("the scene that was given is changed")
	}
	focus := []r3.Vec{{X: 1}}
	for _, f := range s.Faces {
		focus = append(focus, f.Mesh.V...)
	}
	if !slices.Equal(out.Focus, focus) {
		t.Errorf("the drawing must show %d points, want the %d of the piece and its focus", len(out.Focus), len(focus))
	}
	for i, f := range out.Faces[len(s.Faces):] {
		if f.Tone == foamTone || f.Tone == otherTone && f.Silhouette != view.Ghost {
			t.Errorf("face %d of what stands round the piece is painted as the piece is", i)
		}
	}
	for _, l := range out.Lines[len(s.Lines):] {
		if l.Weight != view.Ghost {
			t.Errorf("a line of what stands round the piece has weight %v", l.Weight)
		}
	}
	drawn, folds := 0, 0
	for _, l := range Portrait(other).Lines {
		if l.Weight == view.Fold {
			folds++
		} else {
			drawn++
		}
	}
	if got := len(out.Lines) - len(s.Lines); got != drawn || folds == 0 {
		t.Errorf("the other piece has %d lines, want the %d that are none of its %d folds", got, drawn, folds)
	}
	ghost := out.Faces[len(out.Faces)-1].Mesh
	for i, v := range ghost.V {
		if d := r3.Sub(v, skin.V[i]); math.Abs(r3.Dot(d, cam.Eye())+sunk) > 1e-9 || math.Abs(r3.Norm(d)-sunk) > 1e-9 {
			t.Fatalf("the skin is moved by %v, want %g mm straight away from the viewer", d, sunk)
		}
	}
}

// What is carried stands beside the figure, clear of it: a long thing on the floor,
// a short one with its middle where the hand hangs.
func TestCarried(t *testing.T) {
	const high = 1700.0
	skin := figureOf(high)
	for _, c := range []struct{ long, middle float64 }{{1800, 900}, {300, 0.44 * high}} {
		thing := geom.Mesh{V: []r3.Vec{{X: 50, Y: -70, Z: 400}, {X: 90, Y: -70, Z: 480}, {X: 70, Y: c.long - 70, Z: 440}}, T: [][3]int{{0, 1, 2}}}
		out := Carried(view.Scene{Faces: []view.Face{{Mesh: thing}}}, skin)
		if len(out.Faces) != 2 || out.Faces[0].Tone != ghostTone {
			t.Fatalf("there are %d faces, want the figure as a ghost and the thing", len(out.Faces))
		}
		low, top := extent(view.Scene{Faces: out.Faces[1:]})
		if got := (low.Y + top.Y) / 2; math.Abs(got-c.middle) > 1e-9 {
			t.Errorf("a thing of %g mm has its middle at %g mm, want %g", c.long, got, c.middle)
		}
		if least, _ := extent(view.Scene{Faces: out.Faces[:1]}); top.X >= least.X {
			t.Errorf("a thing of %g mm reaches to x = %g mm, into the figure, which begins at %g", c.long, top.X, least.X)
		}
	}
}

// A piece opens where its closure is, as it is worn; one without any does not open.
func TestClosing(t *testing.T) {
	p := tube(4) // closed at its front
	if angle, ok := Closing(p); !ok || math.Abs(angle) > 1e-9 {
		t.Errorf("it opens at %g rad (%v), want at the front", angle, ok)
	}
	const turn = 2.0 // of the piece on the body, to the left
	sin, cos := math.Sincos(turn)
	p.Frame.X, p.Frame.Z = r3.Vec{X: cos, Z: -sin}, r3.Vec{X: sin, Z: cos}
	if angle, ok := Closing(p); !ok || math.Abs(angle-turn) > 1e-9 {
		t.Errorf("turned, it opens at %g rad (%v), want %g", angle, ok, turn)
	}
	for i := range p.Panels {
		for k := range p.Panels[i].Edges {
			p.Panels[i].Edges[k].Kind = pattern.Rim
		}
	}
	if _, ok := Closing(p); ok {
		t.Error("it opens without a closure")
	}
	p.Panels[1].Edges[1].Gap = true // between the second panel and the third: straight behind
	if angle, ok := Closing(p); !ok || math.Abs(math.Remainder(angle-turn-math.Pi, 2*math.Pi)) > 1e-9 {
		t.Errorf("with a gap behind it opens at %g rad (%v), want %g", angle, ok, math.Remainder(turn+math.Pi, 2*math.Pi))
	}
}

// A camera on the front turns to the side of what it is to see, by 50° at most; one
// behind the piece stays.
func TestTurnedTo(t *testing.T) {
	const deg = math.Pi / 180
	for _, c := range []struct{ yaw, angle, want float64 }{
		{0, 30, 30}, {0, -30, -30}, {40, -10, -10}, {0, 90, 50}, {-20, -140, -50},
		{0, 179, 50}, {0, -179, 50}, // straight behind no side is nearer
		{140, 20, 140}, {-150, 90, -150},
	} {
		got := TurnedTo(view.Camera{Yaw: c.yaw * deg, Pitch: 0.3}, c.angle*deg)
		if math.Abs(got.Yaw-c.want*deg) > 1e-9 || got.Pitch != 0.3 {
			t.Errorf("from %g° it turns to %.1f° to see %g°, want %g°", c.yaw, got.Yaw/deg, c.angle, c.want)
		}
	}
}
