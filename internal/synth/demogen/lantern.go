package main

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"tasset/internal/geom"
	"tasset/internal/synth"
)

// The picture of the lantern that Wren carries at her belt: a prop seen from the
// front, before a plain ground.
const (
	lanternWide, lanternHigh = 600, 900 // px
	lanternMiddle            = 300.0
)

// rightHalf is the right half of the lantern's outline from the top of its ring
// down, as a maker would trace it; the left half mirrors it.
var rightHalf = []struct {
	x, y   float64
	corner bool
}{
	{300, 60, false}, {350, 81, false}, {371, 131, false}, {354, 178, false}, {334, 200, true}, // ring
	{352, 214, true}, {404, 268, false}, {492, 312, true}, {492, 342, true}, {444, 342, true}, // roof
	{466, 430, false}, {471, 530, false}, {458, 630, false}, {444, 692, true}, // glass
	{498, 700, true}, {498, 744, true}, {428, 762, false}, {392, 812, true}, {300, 826, false}, // foot
}

// lanternOutline is the whole outline, its points in turn.
func lanternOutline() (points []r2.Vec, corner []bool) {
	for _, p := range rightHalf {
		points, corner = append(points, r2.Vec{X: p.x, Y: p.y}), append(corner, p.corner)
	}
	for i := len(rightHalf) - 2; i > 0; i-- {
		p := rightHalf[i]
		points, corner = append(points, r2.Vec{X: 2*lanternMiddle - p.x, Y: p.y}), append(corner, p.corner)
	}
	return points, corner
}

// lanternEntry is the outline as costume.yaml has it.
func lanternEntry() string {
	points, corner := lanternOutline()
	var b strings.Builder
	for i, p := range points {
		word := ""
		if corner[i] {
			word = ", corner"
		}
		fmt.Fprintf(&b, "[%.0f, %.0f%s], ", p.X, p.Y, word)
	}
	return "# The lantern, for costume.yaml:\n#   outline: [" + strings.TrimSuffix(b.String(), ", ") + "]\n"
}

// lantern paints the picture, three by three samples a pixel.
func lantern() image.Image {
	points, corner := lanternOutline()
	ring := geom.SmoothRing(points, corner, 5)
	img := image.NewRGBA(image.Rect(0, 0, lanternWide, lanternHigh))
	const n = 3
	for y := range lanternHigh {
		for x := range lanternWide {
			var sum synth.Colour
			for i := range n * n {
				p := r2.Vec{X: float64(x) + (float64(i%n)+.5)/n, Y: float64(y) + (float64(i/n)+.5)/n}
				for k, v := range lanternPaint(p, ring) {
					sum[k] += v / (n * n)
				}
			}
			img.SetRGBA(x, y, color.RGBA{byte8(sum[0]), byte8(sum[1]), byte8(sum[2]), 255})
		}
	}
	return img
}

func byte8(v float64) uint8 { return uint8(math.Round(255 * min(1, max(0, v)))) }

// lanternPaint is the colour at a place of the picture.
func lanternPaint(p r2.Vec, ring []r2.Vec) synth.Colour {
	ground := synth.Mix(synth.RGB(0xEFECE4), synth.RGB(0xD8D4C8), p.Y/lanternHigh)
	x := math.Abs(p.X - lanternMiddle)
	hole := math.Hypot(p.X-lanternMiddle, p.Y-131) < 46
	if hole || !geom.Inside(ring, p) {
		return ground
	}
	metal := synth.Mix(synth.RGB(0x4A4138), synth.RGB(0x7A6A52), max(0, 1-x/200))
	switch {
	case p.Y > 342 && p.Y < 692 && !(x < 9 || x > 120 && x < 136):
		glow := math.Hypot((p.X-lanternMiddle)/150, (p.Y-540)/190)
		return synth.Mix(synth.RGB(0xFFE9A8), synth.RGB(0xC67A2C), glow)
	case p.Y > 306 && p.Y < 342 || p.Y > 700 && p.Y < 744:
		return synth.Mix(metal, synth.RGB(0xC9A35A), .5)
	}
	return metal
}
