package booklet

import (
	"math"
	"testing"

	"tasset/body"
	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The foam is cut through at the rims and at the hole, as thick as it is, and
// nowhere inside the piece.
func TestPortrait_rimsAreAsThickAsFoam(t *testing.T) {
	p := tube(4)
	s := Portrait(p)
	cut := 0.0
	for _, f := range s.Faces {
		if f.Tone != rimTone {
			continue
		}
		cut += area(f.Mesh)
		for i := 0; i < len(f.Mesh.V); i += 2 {
			if d := r3.Norm(r3.Sub(f.Mesh.V[i], f.Mesh.V[i+1])); math.Abs(d-p.Thickness) > 1e-6 {
				t.Fatalf("the cut is %.4f mm thick, want the foam's %g", d, p.Thickness)
			}
			in := r3.Vec{X: 300 - f.Mesh.V[i].X, Z: -f.Mesh.V[i].Z}
			if r3.Dot(in, r3.Sub(f.Mesh.V[i+1], f.Mesh.V[i])) <= 0 {
				t.Fatalf("at %v the cut stands outwards", f.Mesh.V[i])
			}
		}
	}
	// Two rims and the two edges of the closure; of the hole, its girth.
	want := p.Thickness * (2*2*math.Pi*tubeRadius + 2*tubeHeight + 2*math.Pi*holeRadius)
	if math.Abs(cut-want) > 0.06*want {
		t.Errorf("%.0f mm² of cut foam, want %.0f", cut, want)
	}
}

// Of a pair, the right one is the left one's image in the body's middle.
func TestBoth_mirrorsPairs(t *testing.T) {
	p := tube(4)
	s := Portrait(p)
	if got := Both(p, s); len(got.Faces) != len(s.Faces) {
		t.Errorf("a single piece has %d faces, want %d", len(got.Faces), len(s.Faces))
	}
	p.Side, p.Copies = body.Both, 2
	pair := Both(p, s)
	if len(pair.Faces) != 2*len(s.Faces) || len(pair.Lines) != 2*len(s.Lines) {
		t.Fatalf("a pair has %d faces and %d lines, want %d and %d", len(pair.Faces), len(pair.Lines), 2*len(s.Faces), 2*len(s.Lines))
	}
	for i, f := range s.Faces {
		for j, v := range f.Mesh.V {
			if got := pair.Faces[len(s.Faces)+i].Mesh.V[j]; got != (r3.Vec{X: -v.X, Y: v.Y, Z: v.Z}) {
				t.Fatalf("the image of %v is %v", v, got)
			}
		}
	}
}

// A piece that covers the back only is drawn from behind.
func TestFacing(t *testing.T) {
	if c := Facing(Portrait(tube(4))); math.Abs(c.Yaw) > math.Pi/2 {
		t.Errorf("a tube is drawn from %.2f rad, want from the front", c.Yaw)
	}
	p := tube(4)
	p.Panels = p.Panels[1:3]
	if c := Facing(Portrait(p)); math.Abs(c.Yaw) < math.Pi/2 {
		t.Errorf("the back half of a tube is drawn from %.2f rad, want from behind", c.Yaw)
	}
}

// Three views at one scale: the body is as high in each, and all are in the box.
func TestSuitViews_oneScale(t *testing.T) {
	p := tube(4)
	skin := geom.Mesh{V: []r3.Vec{{X: -400}, {X: 400}, {Y: 1700}, {Z: 200}}, T: [][3]int{{0, 1, 2}, {1, 3, 2}, {3, 0, 2}, {0, 3, 1}}}
	box := draw.Rect{Min: r2.Vec{X: 5, Y: 5}, Max: r2.Vec{X: 205, Y: 195}}
	items := SuitViews(Suit([]pattern.Piece{*p}, skin), box, 2)
	var heights []float64
	for _, it := range items {
		switch it := it.(type) {
		case *draw.Picture:
			heights = append(heights, it.Up.Y/1700)
			for _, q := range []r2.Vec{it.At, r2.Add(it.At, r2.Add(it.Across, it.Up))} {
				if q.X < box.Min.X-1e-9 || q.X > box.Max.X+1e-9 || q.Y < box.Min.Y-1e-9 || q.Y > box.Max.Y+1e-9 {
					t.Errorf("a view reaches to %v, outside %v", q, box)
				}
			}
		}
	}
	if len(heights) != 3 || math.Abs(heights[0]-heights[1]) > 1e-9 || math.Abs(heights[0]-heights[2]) > 1e-9 {
		t.Errorf("the views have the scales %v, want three alike", heights)
	}
}
