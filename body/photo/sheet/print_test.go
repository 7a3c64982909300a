package sheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tasset/body/photo"
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/draw/pdf"
)

// tool runs an outside program; without it the test is skipped, but not in CI.
func tool(t *testing.T, name string, args ...string) {
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

func written(t *testing.T, pages ...draw.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, pages, pdf.Info{Title: "Sheet"}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// raster is a page painted by an outside program (poppler's pdftoppm) at 10
// pixels a millimetre.
type raster struct {
	width  int
	grey   []byte
	height float64 // of the page, mm
}

func rasterised(t *testing.T, file string, page int, height float64) raster {
	t.Helper()
	base := filepath.Join(t.TempDir(), "page")
	tool(t, "pdftoppm", "-r", "254", "-gray", "-singlefile", "-f", fmt.Sprint(page), file, base)
	raw, err := os.ReadFile(base + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var w, h, top int
	if _, err := fmt.Sscanf(string(raw[:40]), "P5\n%d %d\n%d\n", &w, &h, &top); err != nil {
		t.Fatal(err)
	}
	return raster{w, raw[len(raw)-w*h:], height}
}

func (r raster) dark(x, y int) float64 { return 1 - float64(r.grey[y*r.width+x])/255 }

// upright is the x in mm of the middle of what is darker than the ground within
// some mm of x, at a height of y.
func (r raster) upright(x, y, within float64) float64 {
	x0, row := int((x-within)*10), int((r.height-y)*10)
	return (float64(x0) + overGround(int(20*within), func(i int) float64 { return r.dark(x0+i, row) })) / 10
}

func (r raster) level(x, y, within float64) float64 {
	y0, col := int((r.height-y-within)*10), int(x*10)
	return r.height - (float64(y0)+overGround(int(20*within), func(i int) float64 { return r.dark(col, y0+i) }))/10
}

// overGround is the middle of what is darker than the lightest sample by a half
// of the darkest's lead.
func overGround(n int, dark func(i int) float64) float64 {
	low, high := 1.0, 0.0
	for i := range n {
		low, high = min(low, dark(i)), max(high, dark(i))
	}
	return centre(n, func(i int) float64 { return 0.15 + max(dark(i)-(low+high)/2, 0) })
}

// The card's marks stand 160 and 240 mm apart on paper, and what a printer gets
// wrong is made up for.
func TestCard_printsAtTrueSize(t *testing.T) {
	for _, p := range append(papers, Paper{Name: "A4", Width: 210, Height: 297, Across: 0.008, Down: -0.005}) {
		card, err := Card(p)
		if err != nil {
			t.Fatal(err)
		}
		inside(t, card)
		r := rasterised(t, written(t, card), 1, p.Height)
		wide, high := photo.CardWidth*(1+p.Across), photo.CardHeight*(1+p.Down)
		left, right, top, low := (p.Width-wide)/2, (p.Width+wide)/2, (p.Height+high)/2, (p.Height-high)/2
		// Beside a mark's middle one quarter is black and the next is white: the edge between them.
		edge := func(at func(i int) float64) float64 {
			sum := 0.0
			for i := range 60 {
				sum += at(i)
			}
			return sum / 10
		}
		across := func(x, y float64) float64 { // black from the middle to the right
			x0, row := int((x-3)*10), int((r.height-y)*10)
			return float64(x0)/10 + 6 - edge(func(i int) float64 { return r.dark(x0+i, row) })
		}
		up := func(x, y float64) float64 { // black from the middle up
			y0, col := int((r.height-y-3)*10), int(x*10)
			return r.height - float64(y0)/10 - edge(func(i int) float64 { return r.dark(col, y0+i) })
		}
		got := across(right, top+4) - across(left, top+4)
		if math.Abs(got-wide) > 0.1 {
			t.Errorf("%+v: marks 1 and 2 are %.2f mm apart, want %.2f", p, got, wide)
		}
		if got := up(left+4, top) - up(left+4, low); math.Abs(got-high) > 0.1 {
			t.Errorf("%+v: marks 1 and 4 are %.2f mm apart, want %.2f", p, got, high)
		}
	}
	if _, err := Card(Paper{Name: "A5", Width: 148, Height: 210}); err == nil {
		t.Error("the card was put on A5")
	}
}

// What the board of the test picture carries is true on the printed pages: bars
// 50 mm apart are 50 mm apart on paper, agree with the printed ruler's marks, and
// go on over the join.
func TestPages_printAtTrueSize(t *testing.T) {
	solved, pictures := solvedTarget(t)
	s, err := Head(solved, pictures)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := s.Pages(papers[0])
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 5 {
		t.Fatalf("%d pages, want one to read and four of the view", len(pages))
	}
	file := written(t, pages...)
	tool(t, "qpdf", "--check", file)
	if again, err := os.ReadFile(written(t, pages...)); err != nil {
		t.Fatal(err)
	} else if first, _ := os.ReadFile(file); !bytes.Equal(first, again) {
		t.Error("two runs wrote different bytes")
	}
	pic := func(page int) *draw.Picture {
		for _, it := range pages[page].Items {
			if p, ok := it.(*draw.Picture); ok {
				return p
			}
		}
		t.Fatalf("page %d has no picture", page+1)
		return nil
	}
	v := s.views[0]
	place := func(page int, u, height float64) (x, y float64) {
		p := pic(page).At
		return p.X + u - v.low.X, p.Y + height - v.low.Y
	}
	upper, lower := rasterised(t, file, 2, 297), rasterised(t, file, 4, 297)
	// left column, upper and lower page
	x50, y := place(1, -50, 125)
	x100, _ := place(1, -100, 125)
	if got := upper.upright(x50, y, 4.5) - upper.upright(x100, y, 4.5); math.Abs(got-50) > 0.2 {
		t.Errorf("bars 50 mm apart print %.2f mm apart", got)
	}
	_, low := place(3, -75, -50)
	xl, high := place(3, -75, 0)
	if got := lower.level(xl, high, 4.5) - lower.level(xl, low, 4.5); math.Abs(got-50) > 0.2 {
		t.Errorf("level bars 50 mm apart print %.2f mm apart", got)
	}
	// The ruler below the picture: its mark for −100 stands under the bar at −100.
	_, bottom := place(3, 0, v.low.Y)
	xb, yb := place(3, -100, -25)
	if tick, bar := lower.upright(xb, bottom-2.6, 0.6), lower.upright(xb, yb, 4.5); math.Abs(tick-bar) > 0.2 {
		t.Errorf("the ruler's −100 stands at %.2f mm, the bar at %.2f", tick, bar)
	}
	// Over the join: the bar at −100 stands at the same x on both pages, which
	// are joined edge to edge, and the level bars keep their distance.
	area := leaf.Area(210, 297)
	xu, yu := place(1, -100, 125)
	if a, b := upper.upright(xu, yu, 4.5), lower.upright(xb, yb, 4.5); math.Abs(a-b) > 0.2 {
		t.Errorf("the bar steps from %.2f to %.2f mm over the join", a, b)
	}
	xa, ya := place(1, -75, 150)
	above := upper.level(xa, ya, 4.5) - area.Min.Y
	below := area.Max.Y - leaf.Strip - lower.level(xl, high, 4.5)
	if math.Abs(above+below-150) > 0.3 {
		t.Errorf("150 mm over the join are %.2f mm", above+below)
	}
}

// The page bars are 100 mm and the fitted page's ruler says true mm.
func TestFitted_rulerAgrees(t *testing.T) {
	solved, pictures := solvedTarget(t)
	s, err := Head(solved, pictures)
	if err != nil {
		t.Fatal(err)
	}
	page, err := s.Fitted(papers[0])
	if err != nil {
		t.Fatal(err)
	}
	r := rasterised(t, written(t, page), 1, 297)
	var pic *draw.Picture
	for _, it := range page.Items {
		if p, ok := it.(*draw.Picture); ok {
			pic = p
		}
	}
	scale := pic.Across.X / (s.views[0].high.X - s.views[0].low.X)
	x := func(u float64) float64 { return pic.At.X + (u-s.views[0].low.X)*scale }
	tick := func(u float64) float64 { return r.upright(x(u), pic.At.Y-2.6, 0.3) }
	if got, want := tick(100)-tick(-100), 200*scale; math.Abs(got-want) > 0.1 {
		t.Errorf("200 mm on the ruler are %.2f mm on paper, want %.2f (scale %.4f)", got, want, scale)
	}
	if bar := r.upright(115, 16.5, 1) - r.upright(15, 14.2, 1); math.Abs(bar-100) > 0.1 {
		t.Errorf("the page's bar is %.2f mm", bar)
	}
}
