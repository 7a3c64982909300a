package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r2"
)

// corners are those of an upright picture: "top left" is red, and so on.
var corners = map[string]color.RGBA{
	"top left": {R: 255, A: 255}, "top right": {G: 255, A: 255}, "bottom left": {B: 255, A: 255}, "bottom right": {255, 255, 0, 255},
}

// stored are the eight ways to store a picture: at which side of the upright
// picture the stored first row and first column lie (source: CIPA DC-008-2019,
// table of tag 0x0112, Orientation).
var stored = [9][2]string{1: {"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"}, {"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"}}

var opposite = map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}

func corner(a, b string) color.RGBA {
	if c, ok := corners[a+" "+b]; ok {
		return c
	}
	return corners[b+" "+a]
}

// quarters is a stored picture of four fields, for one of the eight ways; the
// upright picture is 40 × 20.
func quarters(way int) *image.RGBA {
	row, col := stored[way][0], stored[way][1]
	w, h := 40, 20
	if row == "left" || row == "right" {
		w, h = h, w
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			r, c := row, col
			if y >= h/2 {
				r = opposite[row]
			}
			if x >= w/2 {
				c = opposite[col]
			}
			img.SetRGBA(x, y, corner(r, c))
		}
	}
	return img
}

func TestTurn_theEightWaysToStore(t *testing.T) {
	for way := 1; way <= 8; way++ {
		p := &Picture{Name: "x.png", Width: 40, Height: 20, format: pngFile, turn: turn(way), src: pngOf(t, quarters(way))}
		whole, err := p.Upright()
		if err != nil {
			t.Fatal(err)
		}
		small, err := p.Scaled(10)
		if err != nil {
			t.Fatal(err)
		}
		for _, img := range []*image.RGBA{whole, small} {
			s := img.Rect.Size()
			if s.X != 2*s.Y {
				t.Errorf("way %d: %v", way, s)
			}
			for at, want := range map[image.Point]string{{}: "top left", {X: s.X - 1}: "top right", {Y: s.Y - 1}: "bottom left", {X: s.X - 1, Y: s.Y - 1}: "bottom right"} {
				if got := img.RGBAAt(at.X, at.Y); got != corners[want] {
					t.Errorf("way %d, size %v: %s is %v", way, s, want, got)
				}
			}
		}
	}
}

// On a page the stored pixels lie where the upright ones do.
func TestPlace_standsUpright(t *testing.T) {
	r := draw.Rect{Min: r2.Vec{X: 10, Y: 20}, Max: r2.Vec{X: 50, Y: 40}}
	for way := 1; way <= 8; way++ {
		img := quarters(way)
		p := &Picture{Name: "x.png", Width: 40, Height: 20, format: pngFile, turn: turn(way), src: pngOf(t, img)}
		pic, err := p.Place(r)
		if err != nil {
			t.Fatal(err)
		}
		w, h := img.Rect.Dx(), img.Rect.Dy()
		for _, px := range [][2]int{{1, 1}, {w - 2, 1}, {1, h - 2}, {w - 2, h - 2}} {
			u, v := (float64(px[0])+0.5)/float64(w), 1-(float64(px[1])+0.5)/float64(h)
			at := r2.Add(pic.At, r2.Add(r2.Scale(u, pic.Across), r2.Scale(v, pic.Up)))
			side := map[bool]string{true: "left", false: "right"}[at.X < 30]
			level := map[bool]string{true: "bottom", false: "top"}[at.Y < 30]
			if got := img.RGBAAt(px[0], px[1]); got != corner(level, side) {
				t.Errorf("way %d: the stored pixel %v, %v, stands %s %s", way, px, got, level, side)
			}
		}
	}
}

func pngOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The files were made, and their notes written, by programs of others (source:
// ImageMagick 7 and ExifTool 13 from Debian).
func TestRead_notesWrittenByOthers(t *testing.T) {
	for _, c := range []struct {
		file          string
		width, height int
		f35           float64
		lens          string
		zoomed        bool
	}{
		{"noted.jpg", 48, 64, 26, "Maker One, back lens 5.1 mm", true},
		{"noted.png", 48, 64, 52, "", false},
		{"noted.webp", 64, 48, 70, "", false},
	} {
		src, err := os.ReadFile("testdata/" + c.file)
		if err != nil {
			t.Fatal(err)
		}
		p, findings, err := Read(c.file, src)
		if err != nil {
			t.Fatal(err)
		}
		if p.Width != c.width || p.Height != c.height || p.F35 != c.f35 || p.Lens != c.lens {
			t.Errorf("%s: %d × %d, %v mm, %q", c.file, p.Width, p.Height, p.F35, p.Lens)
		}
		if zoomed := len(findings) == 1 && strings.Contains(findings[0].Said, "digital zoom of 2"); zoomed != c.zoomed || len(findings) > 1 {
			t.Errorf("%s: findings %v", c.file, findings)
		}
		img, err := p.Upright()
		if err != nil || img.Rect.Size() != (image.Point{c.width, c.height}) {
			t.Errorf("%s upright: %v, %v", c.file, img.Rect, err)
		}
		pic, err := p.Place(draw.Rect{Max: r2.Vec{X: 10, Y: 10}})
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(pic.Encoded, []byte("Exif")) || bytes.Contains(pic.Encoded, []byte("eXIf")) || bytes.Contains(pic.Encoded, []byte("where it was")) {
			t.Errorf("%s goes onto a page with what the camera noted", c.file)
		}
		if _, _, err := image.Decode(bytes.NewReader(pic.Encoded)); err != nil {
			t.Errorf("%s on a page: %v", c.file, err)
		}
	}
}

func TestRead_cutAndMadeSmaller(t *testing.T) {
	for _, c := range []struct {
		width, height, f35 int // of the file
		wantF35            float64
		level              report.Level
		says               string
	}{
		{4000, 3000, 26, 26, -1, ""},
		{2000, 1500, 26, 26, report.Note, "If it was cut to that shape instead, the focal length is 52 mm"},
		{2000, 1500, 26, 26, report.Note, "noted 4000 × 3000 pixels; the file has 2000 × 1500"},
		{1500, 2000, 26, 26, report.Note, "noted 3000 × 4000 pixels; the file has 1500 × 2000"},
		{2000, 1500, 0, 0, report.Note, "must be multiplied by 0.5."},
		{8000, 6000, 26, 26, report.Doubt, "made larger after it was taken"},
		{1500, 2000, 26, 26, report.Note, "made smaller"},
		{3000, 3000, 26, 0, report.Doubt, `"focal length: 31 mm"`}, // 26 · 5000 / 4243 = 30.6
		{3000, 3000, 0, 0, report.Doubt, "something was cut off"},
		{4000, 2250, 26, 0, report.Doubt, "something was cut off"},
	} {
		n := notes{width: 4000, height: 3000, f35: float64(c.f35)}
		p := &Picture{Name: "front.jpg", Width: c.width, Height: c.height, F35: n.f35}
		got := p.resized(n)
		if p.F35 != c.wantF35 || p.Cut != (3*c.width != 4*c.height && 4*c.width != 3*c.height) {
			t.Errorf("%v: focal length %v, cut %v", c, p.F35, p.Cut)
		}
		if c.says == "" {
			if len(got) > 0 {
				t.Errorf("%v: %v", c, got)
			}
		} else if len(got) != 1 || got[0].Level != c.level || !strings.Contains(got[0].String(), c.says) {
			t.Errorf("%v: %v", c, got)
		}
	}
}

// Only a picture that stood when it was stored and lies now is doubtful: cameras
// store lying ones and note how to turn them, and programs that turn the pixels
// leave the noted size as it is.
func TestRead_turned(t *testing.T) {
	for _, c := range []struct {
		noted, stored [2]int
		turn          turn
		says          string
	}{
		{[2]int{1500, 2000}, [2]int{1500, 2000}, 1, ""},
		{[2]int{2000, 1500}, [2]int{2000, 1500}, 6, ""},
		{[2]int{2000, 1500}, [2]int{1500, 2000}, 1, ""},
		{[2]int{2000, 1500}, [2]int{2000, 1500}, 1, ""},
		{[2]int{1500, 2000}, [2]int{2000, 1500}, 1, "The camera noted an upright picture, 1500 × 2000 pixels; the file lies, 2000 × 1500"},
		{[2]int{1500, 2000}, [2]int{2000, 1500}, 0, "turned by 90°"},
		{[2]int{1500, 2000}, [2]int{1500, 2000}, 6, "the file says to turn it by 90°"},
	} {
		tiff := directory(0, [2]uint32{0x0112, uint32(c.turn)}, [2]uint32{0xa002, uint32(c.noted[0])}, [2]uint32{0xa003, uint32(c.noted[1])})
		var b bytes.Buffer
		if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, c.stored[0], c.stored[1])), nil); err != nil {
			t.Fatal(err)
		}
		_, found, err := Read("front.jpg", withEXIF(b.Bytes(), tiff))
		if err != nil || len(found) > 1 || (c.says == "") != (len(found) == 0) || !strings.Contains(fmt.Sprint(found), c.says) {
			t.Errorf("%v: %v, %v", c, found, err)
		}
	}
}

// A ramp is still the same ramp when it is smaller, wherever new pixels begin:
// the mean over an interval is the ramp's value in its middle, half a sample off.
func TestShrink_isTheMeanOverTheArea(t *testing.T) {
	for _, ratio := range []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410} {
		for _, size := range []image.Point{{X: 201, Y: 173}, {X: 200, Y: 200}} {
			src := image.NewYCbCr(image.Rectangle{Max: size}, ratio)
			cw, ch := chroma(ratio)
			for y := range size.Y {
				for x := range size.X {
					src.Y[src.YOffset(x, y)] = uint8(x)
					src.Cb[src.COffset(x, y)] = uint8(y / ch * ch)
					src.Cr[src.COffset(x, y)] = uint8(x / cw * cw)
				}
			}
			to := image.Rect(0, 0, 61, 47)
			out := shrink(src, to)
			for y := 2; y < 45; y++ {
				for x := 2; x < 59; x++ {
					mx := (float64(x)+0.5)*float64(size.X)/61 - 0.5
					my := (float64(y)+0.5)*float64(size.Y)/47 - 0.5
					i := out.YOffset(x, y)
					for what, e := range map[string]float64{
						"Y":  float64(out.Y[i]) - mx,
						"Cb": (float64(out.Cb[i]) - my + float64(ch-1)/2) / (0.5 + 0.25*float64(ch)),
						"Cr": (float64(out.Cr[i]) - mx + float64(cw-1)/2) / (0.5 + 0.25*float64(cw)),
					} {
						if math.Abs(e) > 1.01 {
							t.Fatalf("%v, %v: %s at %d, %d is off by %.2f", ratio, size, what, x, y, e)
						}
					}
				}
			}
		}
	}
}

func BenchmarkTwelveMegapixels(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	seed := uint32(1)
	for i := 0; i < len(img.Pix); i += 4 {
		seed = seed*1664525 + 1013904223 // grain, as a camera's sensor has it
		x, y, grain := i/4%4000, i/4/4000, uint8(seed>>28)
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = uint8(x/17)+grain, uint8(y/13)+grain, uint8((x+y)/30), 255
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: 92}); err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(file.Len())/1e6, "MB")
	for b.Loop() {
		p, _, err := Read("front.jpg", file.Bytes())
		if err != nil {
			b.Fatal(err)
		}
		p.turn, p.Width, p.Height = 6, 3000, 4000
		if small, err := p.Scaled(1600); err != nil || small.Rect.Dy() != 1600 {
			b.Fatal(err)
		}
	}
}
