package pdf

import (
	"bytes"
	"fmt"
	"image"
	imagecolor "image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tasset/internal/draw"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"gonum.org/v1/gonum/spatial/r2"
)

// barred is a white picture of 400 × 300 pixels with a black upright bar from
// x = 100 to 120 and a black level one from y = 32 to 40 on its left half.
func barred(shade uint8) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			c := imagecolor.RGBA{255, 255, shade, 255}
			if x >= 100 && x < 120 || x < 200 && y >= 32 && y < 40 {
				c = imagecolor.RGBA{0, 0, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

func jpegOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pngOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func run(t *testing.T, name string, args ...string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed; this check needs it", name)
	}
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
}

func fileOf(t *testing.T, pages ...draw.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, pages, Info{Title: "Pictures"}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "pictures.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// What is drawn in a picture lies where it should, within a pixel of 0.1 mm, as
// painted by an independent renderer (source: poppler's pdftoppm): upright, and
// turned a quarter with its upper left corner at the lower left.
func TestWrite_picturesLieInPlace(t *testing.T) {
	photo := jpegOf(t, barred(255))
	page := draw.Page{Width: 150, Height: 200, Items: []draw.Item{
		draw.Placed(photo, draw.Rect{Min: r2.Vec{X: 20.3, Y: 100}, Max: r2.Vec{X: 100.3, Y: 160}}),
		&draw.Picture{Encoded: photo, At: r2.Vec{X: 80, Y: 10}, Across: r2.Vec{Y: 80}, Up: r2.Vec{X: -60}},
	}}
	base := filepath.Join(t.TempDir(), "page")
	run(t, "pdftoppm", "-r", "254", "-gray", "-singlefile", fileOf(t, page), base)
	raw, err := os.ReadFile(base + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var w, h, top int
	if _, err := fmt.Sscanf(string(raw[:40]), "P5\n%d %d\n%d\n", &w, &h, &top); err != nil {
		t.Fatal(err)
	}
	grey := raw[len(raw)-w*h:]
	level := func(x, y float64) float64 { // middle of the ink from x on, over 10 mm
		sum, moment := 0.0, 0.0
		for p := int(x * 10); p < int(x*10)+100; p++ {
			ink := 1 - float64(grey[int((200-y)*10)*w+p])/255
			sum, moment = sum+ink, moment+ink*(float64(p)+0.5)
		}
		return moment / sum / 10
	}
	upright := func(x, y float64) float64 { // from y up, over 10 mm
		sum, moment := 0.0, 0.0
		for p := int((200 - y - 10) * 10); p < int((200-y)*10); p++ {
			ink := 1 - float64(grey[p*w+int(x*10)])/255
			sum, moment = sum+ink, moment+ink*(float64(p)+0.5)
		}
		return 200 - moment/sum/10
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"upright picture, upright bar", level(37.3, 130), 20.3 + 22},
		{"upright picture, level bar", upright(30, 147), 160 - 7.2},
		{"turned picture, upright bar", upright(50, 27), 10 + 22},
		{"turned picture, level bar", level(22, 20), 20 + 7.2},
	} {
		if math.Abs(c.got-c.want) > 0.1 {
			t.Errorf("%s stands at %.2f mm, want %.2f", c.what, c.got, c.want)
		}
	}
}

// Pictures of every kind, some of one width: the file is sound by two readers
// (source: qpdf, pdfcpu), holds a JPEG byte for byte and once, and comes out the
// same each time.
func TestWrite_picturesOfEveryKind(t *testing.T) {
	photo, other := jpegOf(t, barred(255)), jpegOf(t, barred(90))
	alpha := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	for i := range alpha.Pix {
		alpha.Pix[i] = uint8(i * 7)
	}
	deep := image.NewNRGBA64(image.Rect(0, 0, 400, 10))
	few := image.NewPaletted(image.Rect(0, 0, 400, 10), imagecolor.Palette{imagecolor.White, imagecolor.Transparent})
	clip := &draw.Rect{Min: r2.Vec{X: 10, Y: 10}, Max: r2.Vec{X: 50, Y: 50}}
	var items []draw.Item
	for i, file := range [][]byte{photo, other, pngOf(t, alpha), pngOf(t, deep), pngOf(t, few), pngOf(t, image.NewGray(image.Rect(0, 0, 400, 9)))} {
		pic := draw.Placed(file, draw.Rect{Min: r2.Vec{X: float64(10 * i)}, Max: r2.Vec{X: 80, Y: 60}})
		pic.Clip, pic.Fade = clip, float64(i%2)*0.4
		items = append(items, pic)
	}
	items = append(items, &draw.Text{At: r2.Vec{X: 5, Y: 5}, Size: 4, S: "after the pictures"})
	pages := []draw.Page{{Width: 100, Height: 80, Items: items}, {Width: 100, Height: 80, Items: items[:1]}}
	file := fileOf(t, pages...)
	first, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(first, photo); n != 1 {
		t.Errorf("the JPEG stands %d times in the file, want once and unchanged", n)
	}
	for range 12 {
		if again, _ := os.ReadFile(fileOf(t, pages...)); !bytes.Equal(first, again) {
			t.Fatal("two runs wrote different bytes")
		}
	}
	run(t, "qpdf", "--check", file)
	run(t, "pdftoppm", "-r", "30", file, filepath.Join(t.TempDir(), "page"))
	api.DisableConfigDir()
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationStrict
	if err := api.ValidateFile(file, conf); err != nil {
		t.Errorf("strict validation: %v", err)
	}
}

func TestWrite_refusesWhatIsNoPicture(t *testing.T) {
	for _, file := range [][]byte{nil, []byte("GIF89a"), []byte("\xff\xd8\xff"), []byte("\x89PNG\r\n\x1a\n")} {
		page := draw.Page{Width: 50, Height: 50, Items: []draw.Item{draw.Placed(file, draw.Rect{Max: r2.Vec{X: 10, Y: 10}})}}
		if err := Write(&bytes.Buffer{}, []draw.Page{page}, Info{}); err == nil {
			t.Errorf("%q was put into a page", file)
		}
	}
}
