package sheet

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"

	"tasset/body/photo"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// plane is the upright plane through the middle of the subject on which a view
// is at true scale: u to the right as it is seen, v up, mm from the subject's
// origin.
type plane struct {
	right, up, toward r3.Vec // toward the camera, square to the plane
	camera            photo.Camera
}

// planeOf is the plane of a view: through both ears of a front view, through the
// mid-line of a side view, and square to a three-quarter view, whatever the
// camera's own small turn. So roll, pitch and yaw of the camera are taken out.
func planeOf(v photo.View, c photo.Camera) plane {
	up := r3.Vec{Y: 1}
	toward := r3.Unit(r3.Vec{X: c.Frame.O.X, Z: c.Frame.O.Z})
	switch v {
	case photo.HeadFront, photo.BodyFront:
		toward = r3.Vec{Z: 1}
	case photo.HeadLeft, photo.BodyLeft:
		toward = r3.Vec{X: 1}
	case photo.HeadRight, photo.BodyRight:
		toward = r3.Vec{X: -1}
	}
	return plane{right: r3.Cross(up, toward), up: up, toward: toward, camera: c}
}

// distance is how far the lens stands from the plane.
func (p plane) distance() float64 { return r3.Dot(p.toward, p.camera.Frame.O) }

// near is how far a point stands in front of the plane.
func (p plane) near(q r3.Vec) float64 { return r3.Dot(p.toward, q) }

// larger is how much larger what stands d in front of the plane reads, as a part
// of its size: d / (D − d).
func (p plane) larger(d float64) float64 { return d / (p.distance() - d) }

// seen is where a point of the subject appears on the plane, seen from the lens.
func (p plane) seen(q r3.Vec) r2.Vec {
	lens := p.camera.Frame.O
	t := p.distance() / (p.distance() - p.near(q))
	on := r3.Add(lens, r3.Scale(t, r3.Sub(q, lens)))
	return r2.Vec{X: r3.Dot(on, p.right), Y: r3.Dot(on, p.up)}
}

// A resampled picture has a little more pixels than the photograph shows there,
// and no more than memory likes.
const (
	finer       = 1.2
	mostPixels  = 16e6
	jpegQuality = 92
)

// photograph is the part of a picture that shows a rectangle of the plane, as if
// it had been taken square to it: white where the picture ends. It is a turn of
// the camera about its lens, so nothing is made up.
func (p plane) photograph(src *image.RGBA, low, high r2.Vec) ([]byte, error) {
	size := r2.Sub(high, low)
	perMM := min(finer*p.camera.Focal/p.distance(), math.Sqrt(mostPixels/(size.X*size.Y)))
	w, h := int(math.Ceil(size.X*perMM)), int(math.Ceil(size.Y*perMM))
	du, dv := size.X/float64(w), size.Y/float64(h)
	f := p.camera.Frame
	local := func(u, v float64) r3.Vec { return f.Local(r3.Add(r3.Scale(u, p.right), r3.Scale(v, p.up))) }
	first := local(low.X+du/2, high.Y-dv/2)
	stepX, stepY := f.LocalDir(r3.Scale(du, p.right)), f.LocalDir(r3.Scale(-dv, p.up))
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			q := r3.Add(first, r3.Add(r3.Scale(float64(x), stepX), r3.Scale(float64(y), stepY)))
			px := photo.Pixel{X: p.camera.Centre.X + p.camera.Focal*q.X/q.Z, Y: p.camera.Centre.Y + p.camera.Focal*q.Y/q.Z}
			sample(out.Pix[out.PixOffset(x, y):], src, px, q.Z > 0)
		}
	}
	var b bytes.Buffer
	err := jpeg.Encode(&b, out, &jpeg.Options{Quality: jpegQuality})
	return b.Bytes(), err
}

// sample writes the colour at a place of a picture, between its four pixels.
func sample(dst []uint8, src *image.RGBA, at photo.Pixel, front bool) {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	dst[3] = 255
	if !front || !(at.X >= 0 && at.Y >= 0 && at.X < float64(w) && at.Y < float64(h)) {
		dst[0], dst[1], dst[2] = 255, 255, 255
		return
	}
	x, y := min(max(at.X-0.5, 0), float64(w-1)), min(max(at.Y-0.5, 0), float64(h-1))
	x0, y0 := int(x), int(y)
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	a := src.PixOffset(x0, y0)
	right, down := 0, 0
	if x0+1 < w {
		right = 4
	}
	if y0+1 < h {
		down = src.Stride
	}
	for i := range 3 {
		top := float32(src.Pix[a+i])*(1-fx) + float32(src.Pix[a+right+i])*fx
		low := float32(src.Pix[a+down+i])*(1-fx) + float32(src.Pix[a+down+right+i])*fx
		dst[i] = uint8(top*(1-fy) + low*fy + 0.5)
	}
}
