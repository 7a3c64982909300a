// Package synth makes up people and photographs whose truth is known: meshes
// rendered into real picture files, and marks on them with the noise of a hand.
// It judges the stages from outside and is no part of the program.
package synth

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/internal/geom"
)

// Colour is red, green and blue as screens show them, 0 to 1.
type Colour [3]float64

// RGB is a colour from the usual hexadecimal number.
func RGB(hex uint32) Colour {
	return Colour{float64(hex>>16&255) / 255, float64(hex>>8&255) / 255, float64(hex&255) / 255}
}

// Mix is a colour between two: a for t = 0, b for t = 1.
func Mix(a, b Colour, t float64) Colour {
	t = min(1, max(0, t))
	for i := range a {
		a[i] += t * (b[i] - a[i])
	}
	return a
}

// Surface is a mesh and what is painted on it.
type Surface struct {
	Mesh  geom.Mesh             // in the scene's axes
	Paint func(p r3.Vec) Colour // the colour at a place of the mesh
	Dim   func(v int) float64   // how much of the light reaches a vertex, 0 to 1; nil: all
	Flat  bool                  // facets show; otherwise the mesh is shaded smooth
	Glow  bool                  // painted as it is, without light and shade
}

// Plain is one colour all over.
func Plain(c Colour) func(r3.Vec) Colour { return func(r3.Vec) Colour { return c } }

// Scene is what a camera looks at.
type Scene struct {
	Surfaces []Surface
	Behind   Colour // where there is nothing
}

// Add puts a surface into the scene.
func (s *Scene) Add(f Surface) { s.Surfaces = append(s.Surfaces, f) }

// filmDiagonal of 36 × 24 mm film, mm: focal lengths compare by equal diagonal
// angle (CIPA DCG-001).
var filmDiagonal = math.Hypot(36, 24)

// FocalPx is the focal length in pixels of an uncropped picture.
func FocalPx(f35 float64, width, height int) float64 {
	return f35 / filmDiagonal * math.Hypot(float64(width), float64(height))
}

// Pose is where a camera stands round what it looks at. All zero but Distance,
// it looks straight at the front, level.
type Pose struct {
	Distance         float64 // from the lens to Target, mm
	Yaw, Pitch, Roll float64 // to the wearer's left, up, and turned clockwise, radians
	Target           r3.Vec  // stands in the middle of the picture
}

// Camera is an uncropped camera of a focal length at a pose.
func (p Pose) Camera(f35 float64, width, height int) photo.Camera {
	sinYaw, cosYaw := math.Sincos(p.Yaw)
	sinPitch, cosPitch := math.Sincos(p.Pitch)
	back := r3.Vec{X: sinYaw * cosPitch, Y: sinPitch, Z: cosYaw * cosPitch} // from Target to the lens
	right := r3.Vec{X: cosYaw, Z: -sinYaw}
	down := r3.Cross(r3.Scale(-1, back), right)
	sin, cos := math.Sincos(p.Roll)
	x := r3.Add(r3.Scale(cos, right), r3.Scale(sin, down))
	y := r3.Sub(r3.Scale(cos, down), r3.Scale(sin, right))
	return photo.Camera{
		Frame:  geom.Frame{O: r3.Add(p.Target, r3.Scale(p.Distance, back)), X: x, Y: y, Z: r3.Scale(-1, back)},
		Focal:  FocalPx(f35, width, height),
		Centre: photo.Pixel{X: float64(width) / 2, Y: float64(height) / 2},
	}
}
