package tile

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/draw/pdf"
)

// tool runs an outside program; without it the test is skipped, but not in CI.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed; this check needs it", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func written(t *testing.T, pages []draw.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, pages, pdf.Info{Title: "Test costume"}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "pages.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// perMM are the pixels of a millimetre in a raster of 508 dots an inch.
const perMM = 20

// raster is a page painted by an outside program.
type raster struct {
	width  int
	grey   []byte  // row by row from the top
	height float64 // of the page, mm
}

func rasterised(t *testing.T, file string, page int, height float64) raster {
	t.Helper()
	base := filepath.Join(t.TempDir(), "page")
	tool(t, "pdftoppm", "-r", fmt.Sprint(perMM*25.4), "-gray", "-singlefile", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), file, base)
	raw, err := os.ReadFile(base + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var w, h, top int
	if _, err := fmt.Sscanf(string(raw[:40]), "P5\n%d %d\n%d\n", &w, &h, &top); err != nil || top != 255 {
		t.Fatalf("not a grey picture: %v", err)
	}
	return raster{w, raw[len(raw)-w*h:], height}
}

// ink is how dark a pixel is, 0 to 1. x, y are pixels, y down.
func (r raster) ink(x, y int) float64 { return 1 - float64(r.grey[y*r.width+x])/255 }

// uprightLine measures the x in mm of an upright line near x, at height y.
func (r raster) uprightLine(t *testing.T, x, y float64) float64 {
	t.Helper()
	row := int((r.height - y) * perMM)
	return middle(t, x, func(p int) float64 { return r.ink(p, row) })
}

// levelLine measures the y in mm of a level line near y, at x.
func (r raster) levelLine(t *testing.T, x, y float64) float64 {
	t.Helper()
	col := int(x * perMM)
	return r.height - middle(t, r.height-y, func(p int) float64 { return r.ink(col, p) })
}

// middle is where the ink within a millimetre of a place has its middle.
func middle(t *testing.T, near float64, ink func(p int) float64) float64 {
	t.Helper()
	sum, moment := 0.0, 0.0
	for p := int((near - 1) * perMM); p <= int((near+1)*perMM); p++ {
		sum += ink(p)
		moment += ink(p) * (float64(p) + 0.5)
	}
	if sum < 0.5 {
		t.Fatalf("no line within 1 mm of %.2f mm", near)
	}
	return moment / sum / perMM
}
