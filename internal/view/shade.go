package view

import (
	"bytes"
	"image"
	"image/png"
	"math"

	"tasset/internal/draw"
	"tasset/internal/geom"

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
func (v *View) Shade(pxPerMM float64) *draw.Picture { return v.picture(v.painting(pxPerMM)) }

// Painted is the scene as Shade paints it, with its lines over it, hidden where
// the painting has something before them. That is by the pixel, and takes far less time
// than Items where there are many faces. Lines are drawn with a finer pen, as
// there are many on little paper.
func (v *View) Painted(pxPerMM float64) []draw.Item {
	const pen = 0.55
	c := v.painting(pxPerMM)
	items := []draw.Item{v.picture(c)}
	for _, it := range v.lines(func(p r3.Vec) bool { return c.sees(v.corner(p, pxPerMM)) }) {
		if p, ok := it.(*draw.Path); ok {
			p.Stroke.Width *= pen
		}
		items = append(items, it)
	}
	return items
}

func (v *View) painting(pxPerMM float64) *canvas {
	w := int(math.Ceil((v.box.Max.X - v.box.Min.X) * pxPerMM))
	h := int(math.Ceil((v.box.Max.Y - v.box.Min.Y) * pxPerMM))
	c := &canvas{img: image.NewGray(image.Rect(0, 0, w, h)), depth: make([]float32, w*h), face: make([]int32, w*h), w: w, h: h}
	for i := range c.depth {
		c.img.Pix[i], c.depth[i] = 255, float32(math.Inf(-1))
	}
	for i, normals := range v.known.normals() {
		if normals != nil {
			v.paintFace(c, &v.known.solids()[i].Mesh, v.scene.Faces[i].Tone, normals, pxPerMM)
		}
	}
	return c
}

func (v *View) picture(c *canvas) *draw.Picture {
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

func (v *View) corner(p r3.Vec, pxPerMM float64) corner {
	on := v.At(p)
	return corner{x: (on.X - v.box.Min.X) * pxPerMM, y: (v.box.Max.Y - on.Y) * pxPerMM, z: r3.Dot(p, v.eye)}
}

func (v *View) paintFace(c *canvas, m *geom.Mesh, tone Tone, normals [][3]r3.Vec, pxPerMM float64) {
	lit := r3.Add(r3.Add(r3.Scale(light.X, v.right), r3.Scale(light.Y, v.up)), r3.Scale(light.Z, v.eye))
	on := make([]corner, len(m.V))
	for i, p := range m.V {
		on[i] = v.corner(p, pxPerMM)
	}
	for i, t := range m.T {
		tri := [3]corner{on[t[0]], on[t[1]], on[t[2]]}
		back := turn(tri) > 0 // pixels count downwards
		for k := range tri {
			tri[k].bright = tone.at(r3.Dot(normals[i][k], lit), back)
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

// canvas is a picture with what each pixel shows of the triangles: how near to
// the viewer, and which, from 1.
type canvas struct {
	img    *image.Gray
	depth  []float32
	face   []int32
	planes []plane // of the triangles
	w, h   int
}

// plane is how near to the viewer a triangle is, mm: at the picture's corner, and
// how that grows by pixels to the right and down.
type plane struct{ z, across, down float64 }

func (p plane) at(x, y float64) float64 { return p.z + p.across*x + p.down*y }

// before (detail) is by how many mm a triangle must lie before a line to hide it:
// less than the thinnest foam, more than a line is off a surface that its pixel
// shows beside it.
const before = 1.5

// sees tells whether nothing painted lies before a place: where one of the pixels
// round it shows nothing that does, the place is at an outline and is seen.
func (c *canvas) sees(p corner) bool {
	x, y := int(math.Floor(p.x)), int(math.Floor(p.y))
	if !c.hides(x, y, p) {
		return true
	}
	return !c.hides(x-1, y, p) || !c.hides(x+1, y, p) || !c.hides(x, y-1, p) || !c.hides(x, y+1, p)
}

// hides tells whether what a pixel shows lies before a place near it. The
// triangle that it shows is taken on to the place itself, so that a steep one
// hides no line of its own.
func (c *canvas) hides(x, y int, p corner) bool {
	if x < 0 || y < 0 || x >= c.w || y >= c.h {
		return false
	}
	i := c.face[y*c.w+x]
	if i == 0 {
		return false
	}
	return c.planes[i-1].at(p.x, p.y) > p.z+before
}

// shares are what the first two corners count for at a place, of 1.
func shares(t *[3]corner, x, y, area float64) (u, v float64) {
	return ((t[1].x-x)*(t[2].y-y) - (t[1].y-y)*(t[2].x-x)) / area, ((t[2].x-x)*(t[0].y-y) - (t[2].y-y)*(t[0].x-x)) / area
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
	number := int32(0) // until a pixel shows it
	x0, x1 := span(min(t[0].x, t[1].x, t[2].x), max(t[0].x, t[1].x, t[2].x), c.w)
	y0, y1 := span(min(t[0].y, t[1].y, t[2].y), max(t[0].y, t[1].y, t[2].y), c.h)
	// The shares of the corners at a pixel, and how they grow by one to the right.
	du, dv := (t[1].y-t[2].y)/area, (t[2].y-t[0].y)/area
	for y := y0; y < y1; y++ {
		u, v := shares(&t, float64(x0)+0.5, float64(y)+0.5, area)
		for i := y*c.w + x0; i < y*c.w+x1; i++ {
			if w := 1 - u - v; u >= -hair && v >= -hair && w >= -hair {
				if z := float32(u*t[0].z + v*t[1].z + w*t[2].z); z > c.depth[i]+nearer {
					if number == 0 {
						c.planes = append(c.planes, planeOf(&t, area))
						number = int32(len(c.planes))
					}
					c.depth[i], c.face[i] = z, number
					c.img.Pix[i] = uint8(min(255, max(0, u*t[0].bright+v*t[1].bright+w*t[2].bright)))
				}
			}
			u, v = u+du, v+dv
		}
	}
}

func planeOf(t *[3]corner, area float64) plane {
	u, v := t[0].z-t[2].z, t[1].z-t[2].z
	p := plane{
		across: ((t[1].y-t[2].y)*u + (t[2].y-t[0].y)*v) / area,
		down:   ((t[2].x-t[1].x)*u + (t[0].x-t[2].x)*v) / area,
	}
	p.z = t[0].z - p.across*t[0].x - p.down*t[0].y
	return p
}

// hair is how far outside a triangle a pixel may lie, as a share of it, so that
// rounding leaves none out between two.
const hair = 1e-9

// span are the pixels of a row of n whose middles lie between two places.
func span(low, high float64, n int) (from, to int) {
	return max(0, int(math.Ceil(low-0.5))), min(n, int(math.Floor(high-0.5))+1)
}
