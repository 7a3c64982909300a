package synth

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/internal/geom"
)

// fine is how many samples stand along each side of a pixel.
const fine = 2

// nearest is how near to the lens things are drawn, mm.
const nearest = 50

// Render takes the picture. Things in front hide things behind; a point of the
// scene lands where Camera.Project says.
func Render(s Scene, cam photo.Camera, width, height int) *image.RGBA {
	r := newRaster(cam, width, height, s.Behind)
	for _, f := range s.Surfaces {
		r.draw(f)
	}
	return r.picture(width, height)
}

// raster holds the samples of a picture being drawn.
type raster struct {
	cam   photo.Camera // of the samples
	w, h  int
	depth []float64 // 1 / distance along the view; 0 is nothing
	light []Colour  // linear light
	last  [2]Colour // the last paint, as it is given and as light
}

func newRaster(cam photo.Camera, width, height int, behind Colour) *raster {
	cam.Focal *= fine
	cam.Centre.X, cam.Centre.Y = cam.Centre.X*fine, cam.Centre.Y*fine
	r := &raster{cam: cam, w: width * fine, h: height * fine}
	r.depth, r.light = make([]float64, r.w*r.h), make([]Colour, r.w*r.h)
	nothing := r.linear(behind)
	for i := range r.light {
		r.light[i] = nothing
	}
	return r
}

// corner is a vertex as the camera sees it.
type corner struct {
	cam, at, normal r3.Vec // in the camera's axes; in the scene's; the normal in the camera's
	dim             float64
}

func (r *raster) draw(f Surface) {
	corners := make([]corner, len(f.Mesh.V))
	normals := geom.VertexNormals(f.Mesh)
	for i, v := range f.Mesh.V {
		corners[i] = corner{r.cam.Frame.Local(v), v, r.cam.Frame.LocalDir(normals[i]), 1}
		if f.Dim != nil {
			corners[i].dim = f.Dim(i)
		}
	}
	for _, t := range f.Mesh.T {
		c := []corner{corners[t[0]], corners[t[1]], corners[t[2]]}
		if f.Flat {
			n := r3.Unit(r3.Cross(r3.Sub(c[1].cam, c[0].cam), r3.Sub(c[2].cam, c[0].cam)))
			for k := range c {
				c[k].normal = n
			}
		}
		c = clip(c)
		for k := 2; k < len(c); k++ {
			r.fill(f, [3]corner{c[0], c[k-1], c[k]})
		}
	}
}

// clip cuts off what is nearer than the nearest distance.
func clip(c []corner) []corner {
	var out []corner
	for i, a := range c {
		b := c[(i+1)%len(c)]
		if a.cam.Z >= nearest {
			out = append(out, a)
		}
		if (a.cam.Z >= nearest) != (b.cam.Z >= nearest) {
			t := (nearest - a.cam.Z) / (b.cam.Z - a.cam.Z)
			mid := func(p, q r3.Vec) r3.Vec { return r3.Add(r3.Scale(1-t, p), r3.Scale(t, q)) }
			out = append(out, corner{mid(a.cam, b.cam), mid(a.at, b.at), mid(a.normal, b.normal), a.dim + t*(b.dim-a.dim)})
		}
	}
	return out
}

// fill draws one triangle: its places in the picture, then for each sample
// inside it the weights of the corners, true to perspective.
func (r *raster) fill(f Surface, c [3]corner) {
	var x, y [3]float64
	for k := range c {
		x[k] = r.cam.Centre.X + r.cam.Focal*c[k].cam.X/c[k].cam.Z
		y[k] = r.cam.Centre.Y + r.cam.Focal*c[k].cam.Y/c[k].cam.Z
	}
	area := (x[1]-x[0])*(y[2]-y[0]) - (x[2]-x[0])*(y[1]-y[0])
	if area == 0 {
		return
	}
	left, right := span(x, r.w)
	top, bottom := span(y, r.h)
	for j := top; j < bottom; j++ {
		for i := left; i < right; i++ {
			px, py := float64(i)+.5, float64(j)+.5
			w1 := ((px-x[0])*(y[2]-y[0]) - (x[2]-x[0])*(py-y[0])) / area
			w2 := ((x[1]-x[0])*(py-y[0]) - (px-x[0])*(y[1]-y[0])) / area
			if w := [3]float64{1 - w1 - w2, w1, w2}; w[0] >= 0 && w1 >= 0 && w2 >= 0 {
				r.sample(f, c, w, j*r.w+i)
			}
		}
	}
}

// span is the range of samples whose middles may lie between the three.
func span(v [3]float64, n int) (from, to int) {
	low, high := min(v[0], v[1], v[2]), max(v[0], v[1], v[2])
	return int(min(float64(n), max(0, math.Floor(low)))), int(min(float64(n), max(0, math.Ceil(high)+1)))
}

func (r *raster) sample(f Surface, c [3]corner, w [3]float64, i int) {
	near := w[0]/c[0].cam.Z + w[1]/c[1].cam.Z + w[2]/c[2].cam.Z
	if near <= r.depth[i] {
		return
	}
	r.depth[i] = near
	var at, normal, cam r3.Vec
	var dim float64
	for k := range c {
		share := w[k] / c[k].cam.Z / near
		at = r3.Add(at, r3.Scale(share, c[k].at))
		cam = r3.Add(cam, r3.Scale(share, c[k].cam))
		normal = r3.Add(normal, r3.Scale(share, c[k].normal))
		dim += share * c[k].dim
	}
	paint := r.linear(f.Paint(at))
	if !f.Glow {
		paint = shade(paint, r3.Unit(normal), r3.Unit(cam), dim)
	}
	r.light[i] = paint
}

// linear is the light of a paint; the same paint often comes again.
func (r *raster) linear(c Colour) Colour {
	if c != r.last[0] {
		r.last = [2]Colour{c, linear(c)}
	}
	return r.last[1]
}

// The lights stand by the camera: a broad one above on the right of the
// picture, a weaker one low on the left.
var (
	keyLight  = r3.Unit(r3.Vec{X: .55, Y: -.75, Z: -.9})
	fillLight = r3.Unit(r3.Vec{X: -.8, Y: .1, Z: -.7})
)

// shade is matt paint under the lights and the room's own light, with a faint
// sheen. The normal is turned to the camera: a sheet has two faces.
func shade(paint Colour, n, view r3.Vec, dim float64) Colour {
	if r3.Dot(n, view) > 0 {
		n = r3.Scale(-1, n)
	}
	soft := func(l r3.Vec) float64 { return max(0, (r3.Dot(n, l)+.25)/1.25) }
	sky := .5 - .5*n.Y
	room := .16 + .20*sky
	lit := dim*room + (.35+.65*dim)*(.62*soft(keyLight)+.20*soft(fillLight))
	half := r3.Unit(r3.Sub(keyLight, view))
	sheen := .05 * dim * math.Pow(max(0, r3.Dot(n, half)), 24)
	for k := range paint {
		paint[k] = paint[k]*lit + sheen
	}
	return paint
}

// linear is the light of a colour, and shown the reverse. Source: IEC 61966-2-1
// (sRGB), whose curve is near the power 2.2.
func linear(c Colour) Colour {
	for k := range c {
		c[k] = math.Pow(c[k], 2.2)
	}
	return c
}

// shown rounds by a threshold that changes from pixel to pixel, so that soft
// shades have no steps.
func shown(v float64, x, y int) uint8 {
	threshold := float64((x*5+y*3)%8)/8 + 1./16
	return uint8(255*math.Pow(min(1, max(0, v)), 1/2.2) + threshold*.999)
}

// picture averages the samples of each pixel.
func (r *raster) picture(width, height int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			var sum Colour
			for k := range fine * fine {
				s := r.light[(y*fine+k/fine)*r.w+x*fine+k%fine]
				for c := range sum {
					sum[c] += s[c] / (fine * fine)
				}
			}
			img.SetRGBA(x, y, color.RGBA{shown(sum[0], x, y), shown(sum[1], x, y), shown(sum[2], x, y), 255})
		}
	}
	return img
}
