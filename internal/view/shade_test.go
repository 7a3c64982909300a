package view

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

const perMM = 4

func shaded(t *testing.T, s Scene, cam Camera, scale float64) func(x, y float64) uint8 {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(Scaled(s, cam, page, scale).Shade(perMM).Encoded))
	if err != nil {
		t.Fatal(err)
	}
	if size := img.Bounds().Size(); size.X != 100*perMM || size.Y != 100*perMM {
		t.Fatalf("a picture of %v pixels, want 100 mm at %d each way", size, perMM)
	}
	grey := img.(*image.Gray)
	return func(x, y float64) uint8 { return grey.GrayAt(int(x*perMM), int((100-y)*perMM)).Y }
}

// The disc of a sphere has the area of its circle, and the grey of each place is
// that of the sphere's own normal there (closed form): within 2 of 255, as its
// facets are smoothed.
func TestShade_sphere(t *testing.T) {
	const r = 40.0
	tone := Tone{Dark: 40, Light: 240}
	at := shaded(t, Scene{Faces: []Face{{Mesh: sphere(r, 90), Tone: tone}}}, Camera{}, 1)
	n := 0
	for y := 0.5 / perMM; y < 100; y += 1.0 / perMM {
		for x := 0.5 / perMM; x < 100; x += 1.0 / perMM {
			got, u, v := at(x, y), (x-50)/r, (y-50)/r
			if got != 255 {
				n++
			}
			if w := 1 - u*u - v*v; w > 0.05 {
				cos := light.X*u + light.Y*v + light.Z*math.Sqrt(w)
				if want := 40 + 200*(1+cos)/2; math.Abs(float64(got)-want) > 2 {
					t.Fatalf("at %.2f, %.2f the grey is %d, want %.1f", x, y, got, want)
				}
			}
		}
	}
	if got, want := float64(n)/(perMM*perMM), math.Pi*r*r; math.Abs(got-want) > 0.01*want {
		t.Errorf("the disc has %.0f mm², want %.0f", got, want)
	}
}

// What lies nearer covers what lies behind, whichever is painted first, and a
// mesh seen from inside is darker.
func TestShade_nearerCovers(t *testing.T) {
	plate := func(z, half float64) geom.Mesh {
		return geom.Mesh{V: []r3.Vec{{X: -half, Y: -half, Z: z}, {X: half, Y: -half, Z: z}, {X: half, Y: half, Z: z}, {X: -half, Y: half, Z: z}}, T: [][3]int{{0, 1, 2}, {0, 2, 3}}}
	}
	small, large := Face{Mesh: plate(10, 10), Tone: Tone{100, 100}}, Face{Mesh: plate(0, 40), Tone: Tone{200, 200}}
	for _, faces := range [][]Face{{small, large}, {large, small}} {
		at := shaded(t, Scene{Faces: faces}, Camera{}, 1)
		if at(50, 50) != 100 || at(20, 20) != 200 || at(5, 5) != 255 {
			t.Errorf("from the front: %d, %d, %d, want 100, 200, 255", at(50, 50), at(20, 20), at(5, 5))
		}
		at = shaded(t, Scene{Faces: faces}, Camera{Yaw: math.Pi}, 1)
		if got := at(50, 50); got != uint8(200*inside) {
			t.Errorf("from behind the large plate's inside is %d, want %d", got, uint8(200*inside))
		}
	}
}

// A cube's edges stay sharp: each face has one grey.
func TestShade_edgesStaySharp(t *testing.T) {
	at := shaded(t, Scene{Faces: []Face{{Mesh: cube(), Tone: Tone{0, 250}}}}, Camera{Yaw: math.Pi / 4}, 1)
	if a, b := at(30, 50), at(45, 60); a != b {
		t.Errorf("one face has the greys %d and %d", a, b)
	}
	if a, b := at(45, 50), at(55, 50); a <= b {
		t.Errorf("the face to the light is %d, the other %d", a, b)
	}
}

// Lines hidden by the pixel are those that are hidden exactly, but for a pixel
// at each outline: of circles in, round and far round two crossing balls, as long
// a line is seen within 2 %.
func TestPainted_hidesAsItemsDo(t *testing.T) {
	a, b := sphere(30, 40), sphere(20, 30)
	for i := range b.V {
		b.V[i] = r3.Add(b.V[i], r3.Vec{X: 25, Y: 10, Z: 15})
	}
	s := Scene{Faces: []Face{{Mesh: a, Tone: Tone{90, 230}}, {Mesh: b, Tone: Tone{90, 230}}}}
	for _, tilt := range []float64{0, 0.5, 1, 1.5, 2, 2.5} {
		for _, r := range []float64{20, 33, 45} {
			var ring []r3.Vec
			for i := range 121 {
				sin, cos := math.Sincos(2 * math.Pi * float64(i) / 120)
				ring = append(ring, r3.Vec{X: r * cos, Y: r * sin * math.Cos(tilt), Z: r * sin * math.Sin(tilt)})
			}
			s.Lines = append(s.Lines, Line{ring, Seam})
		}
	}
	length := func(items []draw.Item) (sum float64) {
		for _, it := range items {
			if p, ok := it.(*draw.Path); ok {
				for _, l := range p.Subpaths {
					sum += geom.Length(l)
				}
			}
		}
		return sum
	}
	for _, cam := range []Camera{{}, {0.7, 0.3}, {2.5, -0.4}} {
		v := New(s, cam, page)
		if got, want := length(v.Painted(6)), length(v.Items()); math.Abs(got-want) > 0.02*want {
			t.Errorf("%v: %.0f mm of line are seen, want %.0f", cam, got, want)
		}
	}
}
