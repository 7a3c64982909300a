// Package view draws meshes as a line drawing with hidden lines removed, seen
// from far away (a parallel projection), and writes them as OBJ and STL.
//
// Scenes are in body axes: x to the wearer's left, y up, z forward; lengths
// are millimetres and angles radians.
package view

import (
	"math"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Weight tells what a line is, and so how heavily it is drawn.
type Weight int

// The weights, from the lightest. Ghost is for what is only there to show
// where the rest is: the body under a piece.
const (
	None Weight = iota // not drawn
	Ghost
	Fold
	Seam
	Outline
)

// Stroke is how a line of this weight looks on paper.
func (w Weight) Stroke() draw.Style {
	return [...]draw.Style{
		None:    {},
		Ghost:   {Width: 0.18, Color: draw.Color{R: 150, G: 150, B: 150}},
		Fold:    {Width: 0.18, Dash: []float64{1.6, 0.9}},
		Seam:    {Width: 0.25},
		Outline: {Width: 0.45},
	}[w]
}

// Line is a polyline of the scene.
type Line struct {
	Points []r3.Vec
	Weight Weight
}

// Face is a mesh that hides what is behind it, from either side. Edges between
// a triangle seen from outside and one seen from inside are drawn with the
// weight Silhouette. Tone is what View.Shade paints it with.
type Face struct {
	Mesh       geom.Mesh
	Silhouette Weight
	Tone       Tone
	Joined     bool // Mesh is as the function Joined makes it
}

func (f Face) solid() *solid {
	if f.Joined {
		return newSolid(f.Mesh)
	}
	return joined(f.Mesh)
}

// Scene is what there is to see.
type Scene struct {
	Faces []Face
	Lines []Line
	Focus []r3.Vec // what the drawing must show; nil: everything
}

// show gives every point that the drawing must show.
func (s Scene) show(each func(r3.Vec)) {
	all := func(pts []r3.Vec) {
		for _, p := range pts {
			each(p)
		}
	}
	if len(s.Focus) > 0 {
		all(s.Focus)
		return
	}
	for _, f := range s.Faces {
		all(f.Mesh.V)
	}
	for _, l := range s.Lines {
		all(l.Points)
	}
}

// Camera is where the viewer stands, far away. Yaw 0 is in front of the wearer,
// and grows as the viewer walks round to the wearer's left; Pitch grows as the
// viewer rises.
type Camera struct{ Yaw, Pitch float64 }

// axes are unit vectors to the right and up as the viewer sees it, and towards
// the viewer.
func (c Camera) axes() (right, up, eye r3.Vec) {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	return r3.Vec{X: cy, Z: -sy}, r3.Vec{X: -sy * sp, Y: cp, Z: -cy * sp}, r3.Vec{X: sy * cp, Y: sp, Z: cy * cp}
}

// Sees is a point as the viewer sees it: mm to the right and up.
func (c Camera) Sees(p r3.Vec) r2.Vec {
	right, up, _ := c.axes()
	return r2.Vec{X: r3.Dot(right, p), Y: r3.Dot(up, p)}
}

// Eye is the direction to the viewer, a unit vector.
func (c Camera) Eye() r3.Vec {
	_, _, eye := c.axes()
	return eye
}

// bounds are those of a scene as the viewer sees it.
func (c Camera) bounds(s Scene) r2.Box {
	right, up, _ := c.axes()
	inf := math.Inf(1)
	b := r2.Box{Min: r2.Vec{X: inf, Y: inf}, Max: r2.Vec{X: -inf, Y: -inf}}
	s.show(func(p r3.Vec) {
		x, y := r3.Dot(right, p), r3.Dot(up, p)
		b.Min = r2.Vec{X: min(b.Min.X, x), Y: min(b.Min.Y, y)}
		b.Max = r2.Vec{X: max(b.Max.X, x), Y: max(b.Max.Y, y)}
	})
	return b
}

// Scale is the largest scale (paper mm for each mm) at which a scene fits into
// a box, so that several drawings can be given the same.
func Scale(s Scene, cam Camera, box draw.Rect) float64 {
	b := cam.bounds(s)
	return min((box.Max.X-box.Min.X)/(b.Max.X-b.Min.X), (box.Max.Y-box.Min.Y)/(b.Max.Y-b.Min.Y))
}

// Size is how wide and high a scene is as a camera sees it, mm.
func Size(s Scene, cam Camera) r2.Vec {
	b := cam.bounds(s)
	return r2.Sub(b.Max, b.Min)
}

// View is a scene placed on paper.
type View struct {
	scene Scene
	box   draw.Rect
	scale float64
	shift r2.Vec
	known *known

	right, up, eye r3.Vec // the camera's axes
}

// known is what is computed of a scene once, when it is first asked for, however
// many sides it is seen from.
type known struct {
	faces   func() *geom.Locator
	solids  func() []*solid      // of the faces, their triangles joined
	normals func() [][][3]r3.Vec // of each face that is painted
}

func know(s Scene) *known {
	solids := sync.OnceValue(func() []*solid {
		return each(s.Faces, func(f Face, _ int) *solid { return f.solid() })
	})
	return &known{
		solids: solids,
		faces: sync.OnceValue(func() *geom.Locator {
			var all geom.Mesh
			for _, f := range s.Faces {
				all.Append(f.Mesh)
			}
			return geom.NewLocator(all)
		}),
		normals: sync.OnceValue(func() [][][3]r3.Vec {
			of := solids()
			return each(s.Faces, func(f Face, i int) (n [][3]r3.Vec) {
				if f.Tone != (Tone{}) {
					n = of[i].smoothed()
				}
				return n
			})
		}),
	}
}

// each computes something of every face, at the same time.
func each[T any](faces []Face, of func(Face, int) T) []T {
	out := make([]T, len(faces))
	var all sync.WaitGroup
	for i, f := range faces {
		all.Go(func() { out[i] = of(f, i) })
	}
	all.Wait()
	return out
}

// New places a scene in the middle of a box, as large as it fits.
func New(s Scene, cam Camera, box draw.Rect) *View {
	return Scaled(s, cam, box, Scale(s, cam, box))
}

// Scaled places a scene in the middle of a box at a given scale. What is
// outside the box is clipped.
func Scaled(s Scene, cam Camera, box draw.Rect, scale float64) *View {
	return (&View{scene: s, known: know(s)}).From(cam, box, scale)
}

// From is the same scene from another side, in the middle of a box. Views of one
// scene may be drawn at the same time.
func (v *View) From(cam Camera, box draw.Rect, scale float64) *View {
	b := cam.bounds(v.scene)
	middle := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	w := &View{scene: v.scene, known: v.known, box: box, scale: scale,
		shift: r2.Sub(middle, r2.Scale(scale/2, r2.Add(b.Min, b.Max)))}
	w.right, w.up, w.eye = cam.axes()
	return w
}

// Draw is the visible lines of a scene, drawn as large as a box allows.
func Draw(s Scene, cam Camera, box draw.Rect) []draw.Item { return New(s, cam, box).Items() }

// Scale is how many mm of paper stand for a mm.
func (v *View) Scale() float64 { return v.scale }

// At is where a point of the scene is on paper.
func (v *View) At(p r3.Vec) r2.Vec {
	return r2.Vec{X: v.shift.X + v.scale*r3.Dot(v.right, p), Y: v.shift.Y + v.scale*r3.Dot(v.up, p)}
}

// lift is how far in front of a surface its own lines are looked for (detail).
// A hidden line shows for about this long where it leaves a visible one.
const lift = geom.Detail

// Visible tells whether nothing stands between a point and the viewer.
func (v *View) Visible(p r3.Vec) bool {
	return !v.known.faces().Blocks(r3.Add(p, r3.Scale(lift, v.eye)), v.eye)
}

// Covers tells whether any face of the scene is at a place on paper.
func (v *View) Covers(q r2.Vec) bool {
	const far = 1e5 // behind any scene, mm
	q = r2.Scale(1/v.scale, r2.Sub(q, v.shift))
	behind := r3.Add(r3.Add(r3.Scale(q.X, v.right), r3.Scale(q.Y, v.up)), r3.Scale(-far, v.eye))
	return v.known.faces().Blocks(behind, v.eye)
}
