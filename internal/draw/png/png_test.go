package png

import (
	"bytes"
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

func TestWrite_refusesHugePictures(t *testing.T) {
	if err := Write(&bytes.Buffer{}, draw.Page{Width: 5000, Height: 5000}, 10); err == nil {
		t.Error("2500 million pixels were painted")
	}
}
