package png

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestWrite_paintsToScale(t *testing.T) {
	black := draw.Color{}
	p := draw.Page{Width: 60, Height: 40, Items: []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{{{X: 10, Y: 5}, {X: 30, Y: 5}, {X: 30, Y: 15}, {X: 10, Y: 15}}}, Closed: true, Fill: &black},
		&draw.Text{At: r2.Vec{X: 40, Y: 30}, Size: 5, S: "V1"},
	}}
	var b bytes.Buffer
	if err := Write(&b, p, 10); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if s := img.Bounds().Size(); s.X != 600 || s.Y != 400 {
		t.Fatalf("the picture is %v, want 600 × 400", s)
	}
	dark := func(x0, y0, x1, y1 int) (n int) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
					n++
				}
			}
		}
		return n
	}
	if n := dark(0, 200, 350, 400); n != 200*100 {
		t.Errorf("the filled 20 × 10 mm have %d pixels, want 20000", n)
	}
	if n := dark(395, 50, 480, 105); n < 200 {
		t.Errorf("the text has %d dark pixels", n)
	}
}

// The picture tells its size to programs that open it: 6 pixels a millimetre are
// 6000 a metre. The chunk below, check sum and all, was written by ImageMagick 6.9
// for 60 pixels a centimetre.
func TestWrite_tellsItsResolution(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, draw.Page{Width: 20, Height: 10}, 6); err != nil {
		t.Fatal(err)
	}
	want := []byte("\x00\x00\x00\x09pHYs\x00\x00\x17p\x00\x00\x17p\x01uhu&")
	if !bytes.Equal(b.Bytes()[33:33+len(want)], want) {
		t.Errorf("% x, want % x", b.Bytes()[33:33+len(want)], want)
	}
	if _, err := png.Decode(&b); err != nil {
		t.Error(err)
	}
}

func TestWrite_refusesHugePictures(t *testing.T) {
	if err := Write(&bytes.Buffer{}, draw.Page{Width: 5000, Height: 5000}, 10); err == nil {
		t.Error("2500 million pixels were painted")
	}
}

// A picture of two halves, turned a quarter and clipped, lies where its corners
// say (source: the pixels of the picture).
func TestWrite_placesPictures(t *testing.T) {
	halves := image.NewNRGBA(image.Rect(0, 0, 40, 20))
	for y := range 20 {
		for x := range 40 {
			halves.SetNRGBA(x, y, color.NRGBA{R: uint8(255 * (x / 20)), A: 255})
		}
	}
	var file bytes.Buffer
	if err := png.Encode(&file, halves); err != nil {
		t.Fatal(err)
	}
	upright := draw.Placed(file.Bytes(), draw.Rect{Min: r2.Vec{X: 5, Y: 30}, Max: r2.Vec{X: 45, Y: 50}})
	turned := &draw.Picture{Encoded: file.Bytes(), At: r2.Vec{X: 30}, Across: r2.Vec{Y: 20}, Up: r2.Vec{X: -20}, Clip: &draw.Rect{Max: r2.Vec{X: 25, Y: 60}}}
	faded := draw.Placed(file.Bytes(), draw.Rect{Min: r2.Vec{X: 40}, Max: r2.Vec{X: 60, Y: 20}})
	faded.Fade = 0.6
	var b bytes.Buffer
	if err := Write(&b, draw.Page{Width: 60, Height: 60, Items: []draw.Item{upright, turned, faded}}, 10); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	black, red, white, grey := color.RGBA{A: 255}, color.RGBA{R: 255, A: 255}, color.RGBA{255, 255, 255, 255}, color.RGBA{153, 153, 153, 255}
	for _, c := range []struct {
		x, y float64
		want color.RGBA
	}{
		{6, 31, black}, {24.3, 49, black}, {25.7, 31, red}, {44, 49, red}, {4.8, 40, white}, {20, 50.2, white},
		{11, 1, black}, {24, 9.7, black}, {11, 10.3, red}, {24, 19, red}, {25.2, 5, white}, {9.8, 5, white}, {43, 10, grey},
	} {
		r, g, bl, a := img.At(int(c.x*10), 599-int(c.y*10)).RGBA()
		got := color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8), uint8(a >> 8)}
		if got != c.want {
			t.Errorf("at %v, %v mm: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}
