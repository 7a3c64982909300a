package view

import (
	"bytes"
	"image"
	"image/png"
	"math"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

// Tone is the grey of a face by the angle to the light: Dark where it looks
// away from it, Light where it looks at it. Seen from inside, a face is darker.
// The zero value is not painted.
type Tone struct{ Dark, Light uint8 }

// The light falls from above and from the viewer's left.
var light = r3.Unit(r3.Vec{X: -0.55, Y: 0.65, Z: 0.6}) // right, up and towards the viewer

// inside is how bright a face is that is seen from inside, against its outside.
const inside = 0.72

// Shade paints the scene's faces as a picture with some pixels a millimetre,
// what is behind removed, that fills the view's box.
func (v *View) Shade(pxPerMM float64) *draw.Picture {
	w := int(math.Ceil((v.box.Max.X - v.box.Min.X) * pxPerMM))
	h := int(math.Ceil((v.box.Max.Y - v.box.Min.Y) * pxPerMM))
	c := canvas{img: image.NewGray(image.Rect(0, 0, w, h)), depth: make([]float32, w*h), w: w, h: h}
	for i := range c.depth {
		c.img.Pix[i], c.depth[i] = 255, float32(math.Inf(-1))
	}
	for i, normals := range v.known.normals() {
		if normals != nil {
			v.paintFace(&c, v.scene.Faces[i], normals, pxPerMM)
		}
	}
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := encoder.Encode(&b, c.img); err != nil {
		panic("a picture in memory cannot be encoded: " + err.Error())
	}
	return draw.Placed(b.Bytes(), draw.Rect{Min: v.box.Min, Max: v.box.Max})
}

// corner is a corner of a triangle on the picture: pixels to the right and down,
// mm towards the viewer, and how bright it is there.
type corner struct{ x, y, z, bright float64 }

func (v *View) paintFace(c *canvas, f Face, normals [][3]r3.Vec, pxPerMM float64) {
	right, up, eye := v.cam.axes()
	lit := r3.Add(r3.Add(r3.Scale(light.X, right), r3.Scale(light.Y, up)), r3.Scale(light.Z, eye))
	on := make([]corner, len(f.Mesh.V))
	for i, p := range f.Mesh.V {
		x := v.shift.X + v.scale*r3.Dot(right, p)
		y := v.shift.Y + v.scale*r3.Dot(up, p)
		on[i] = corner{x: (x - v.box.Min.X) * pxPerMM, y: (v.box.Max.Y - y) * pxPerMM, z: r3.Dot(p, eye)}
	}
	for i, t := range f.Mesh.T {
		tri := [3]corner{on[t[0]], on[t[1]], on[t[2]]}
		back := turn(tri) > 0 // pixels count downwards
		for k := range tri {
			tri[k].bright = f.Tone.at(r3.Dot(normals[i][k], lit), back)
		}
		c.triangle(tri)
	}
}

// at is the grey where the outward normal has a cosine to the light.
func (t Tone) at(cos float64, back bool) float64 {
	if back {
		cos = -cos
	}
	share := (1 + cos) / 2
	grey := float64(t.Dark) + (float64(t.Light)-float64(t.Dark))*share
	if back {
		grey *= inside
	}
	return grey
}

// canvas is a picture with how near to the viewer each pixel is.
type canvas struct {
	img   *image.Gray
	depth []float32
	w, h  int
}

// nearer is by how many mm a face must lie before another to cover it: of two in
// one place the first is kept, whatever rounding says.
const nearer = 0.02

// turn is twice the area of a triangle on the picture, above 0 if its corners run
// clockwise as it is seen.
func turn(t [3]corner) float64 {
	return (t[1].x-t[0].x)*(t[2].y-t[0].y) - (t[1].y-t[0].y)*(t[2].x-t[0].x)
}

// triangle paints the pixels whose middles are in a triangle.
func (c *canvas) triangle(t [3]corner) {
	area := turn(t)
	if math.Abs(area) < 1e-12 {
		return
	}
	x0, x1 := span(min(t[0].x, t[1].x, t[2].x), max(t[0].x, t[1].x, t[2].x), c.w)
	y0, y1 := span(min(t[0].y, t[1].y, t[2].y), max(t[0].y, t[1].y, t[2].y), c.h)
	// The shares of the corners at a pixel, and how they grow by one to the right.
	du, dv := (t[1].y-t[2].y)/area, (t[2].y-t[0].y)/area
	for y := y0; y < y1; y++ {
		px, py := float64(x0)+0.5, float64(y)+0.5
		u := ((t[1].x-px)*(t[2].y-py) - (t[1].y-py)*(t[2].x-px)) / area
		v := ((t[2].x-px)*(t[0].y-py) - (t[2].y-py)*(t[0].x-px)) / area
		for i := y*c.w + x0; i < y*c.w+x1; i++ {
			if w := 1 - u - v; u >= -hair && v >= -hair && w >= -hair {
				if z := float32(u*t[0].z + v*t[1].z + w*t[2].z); z > c.depth[i]+nearer {
					c.depth[i] = z
					c.img.Pix[i] = uint8(min(255, max(0, u*t[0].bright+v*t[1].bright+w*t[2].bright)))
				}
			}
			u, v = u+du, v+dv
		}
	}
}

// hair is how far outside a triangle a pixel may lie, as a share of it, so that
// rounding leaves none out between two.
const hair = 1e-9

// span are the pixels of a row of n whose middles lie between two places.
func span(low, high float64, n int) (from, to int) {
	return max(0, int(math.Ceil(low-0.5))), min(n, int(math.Floor(high-0.5))+1)
}
