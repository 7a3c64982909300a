package sheet

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"testing"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A pixel lies on the plane where what it shows appears.
func TestPlane_underAPixel(t *testing.T) {
	cam := crooked()
	p := planeOf(photo.HeadFront, cam)
	for _, q := range []r3.Vec{{X: 20, Y: -95, Z: 88}, {X: -140, Y: 200}, {X: 60, Y: 30, Z: -70}} {
		got, ok := p.under(cam.Project(q))
		if want := p.seen(q); !ok || r2.Norm(r2.Sub(got, want)) > 1e-6 {
			t.Errorf("%v appears at %v, its pixel lies over %v", q, want, got)
		}
	}
}

// The ruler in frame is on the sheet with both ends, and joins keep off the eyes.
func TestHead_rulerAndEyes(t *testing.T) {
	solved, pictures := solvedTarget(t)
	from, to := r3.Vec{X: -150, Y: -140}, r3.Vec{X: -145, Y: 160}
	cam := solved.Head.Cameras[0]
	solved.Head.Shots[0].Ruler = &photo.Ruler{From: cam.Project(from), To: cam.Project(to), Length: 300}
	s, err := Head(solved, pictures)
	if err != nil {
		t.Fatal(err)
	}
	v := s.views[0]
	if v.low.X > -155 || v.high.X < 100 || v.low.Y > -145 || v.high.Y < 165 {
		t.Errorf("the view goes from %v to %v", v.low, v.high)
	}
	w := newWindows(v, leaf.Area(210, 297))
	across, up := w.clearOf(v.eyes)
	if w.rows < 2 || w.cols < 2 || up < 15 || across < 4 {
		t.Errorf("%d × %d windows, whose joins keep %.1f mm off the eyes upwards and %.1f aside", w.cols, w.rows, up, across)
	}
}

// person is a standing figure as lines with half widths, mm.
var person = []struct{ a, b, half r2.Vec }{
	{r2.Vec{Y: 1620}, r2.Vec{Y: 1540}, r2.Vec{X: 75, Y: 75}}, // head
	{r2.Vec{Y: 1500}, r2.Vec{Y: 1400}, r2.Vec{X: 60, Y: 60}}, // neck
	{r2.Vec{Y: 1340}, r2.Vec{Y: 900}, r2.Vec{X: 160, Y: 120}},
	{r2.Vec{X: 195, Y: 1350}, r2.Vec{X: 375, Y: 830}, r2.Vec{X: 50, Y: 35}},
	{r2.Vec{X: 375, Y: 830}, r2.Vec{X: 420, Y: 690}, r2.Vec{X: 35, Y: 35}}, // hand
	{r2.Vec{X: 85, Y: 840}, r2.Vec{X: 105, Y: 469}, r2.Vec{X: 90, Y: 65}},
	{r2.Vec{X: 105, Y: 469}, r2.Vec{X: 120, Y: 60}, r2.Vec{X: 65, Y: 45}},
}

func onPerson(p r2.Vec) bool {
	p.X = math.Abs(p.X)
	for _, l := range person {
		d := r2.Sub(l.b, l.a)
		u := min(max(r2.Dot(r2.Sub(p, l.a), d)/r2.Norm2(d), 0), 1)
		if r2.Norm(r2.Sub(p, r2.Add(l.a, r2.Scale(u, d)))) < l.half.X+u*(l.half.Y-l.half.X) {
			return true
		}
	}
	return false
}

// What pages of a body are left out shows nothing of the body.
func TestBody_leavesOutBackgroundOnly(t *testing.T) {
	cam := photo.Camera{Frame: geom.Frame{O: r3.Vec{Y: 1000, Z: 3000}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: -1}, Z: r3.Vec{Z: -1}}, Focal: 900, Centre: photo.Pixel{X: 350, Y: 400}}
	p := planeOf(photo.BodyFront, cam)
	img := image.NewGray(image.Rect(0, 0, 700, 800))
	for y := range 800 {
		for x := range 700 {
			at, _ := p.under(photo.Pixel{X: float64(x) + 0.5, Y: float64(y) + 0.5})
			if !onPerson(at) {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	points := []photo.Point{{Name: "crown", At: r3.Vec{Y: 1692}}, {Name: "chin", At: r3.Vec{Y: 1469}}, {Name: "crotch", At: r3.Vec{Y: 814}}}
	for name, q := range map[string]r3.Vec{"shoulder edge": {X: 195, Y: 1388}, "wrist": {X: 375, Y: 830}, "hip side": {X: 175, Y: 861}, "waist side": {X: 157, Y: 1018}, "knee": {X: 105, Y: 469}, "ankle": {X: 151, Y: 68}, "toe": {X: 119}} {
		points = append(points, photo.Point{Name: "left " + name, At: q}, photo.Point{Name: "right " + name, At: r3.Vec{X: -q.X, Y: q.Y}})
	}
	shot := photo.Shot{Name: "body.jpg", View: photo.BodyFront, Width: 700, Height: 800}
	for _, q := range points {
		shot.Marks = append(shot.Marks, photo.Mark{Name: q.Name, At: cam.Project(q.At)})
	}
	solved := &photo.Solution{Body: &photo.Subject{Shots: []photo.Shot{shot}, Cameras: []photo.Camera{cam}, Points: points}}
	s, err := Body(solved, map[string]*picture.Picture{"body.jpg": photographOf(t, "body.jpg", img)})
	if err != nil {
		t.Fatal(err)
	}
	v := s.views[0]
	sheet, err := jpeg.Decode(bytes.NewReader(v.encoded))
	if err != nil {
		t.Fatal(err)
	}
	w := newWindows(v, leaf.Area(210, 297))
	perMM := float64(sheet.Bounds().Dx()) / (v.high.X - v.low.X)
	left := 0
	for row := range w.rows {
		for col := range w.cols {
			if w.shows(row, col) {
				continue
			}
			left++
			part, dark := w.part(row, col), 0 // but for the strips that its neighbours show
			for u := part.Min.X + leaf.Strip; u < part.Max.X-leaf.Strip; u += 2 {
				for h := part.Min.Y + leaf.Strip; h < part.Max.Y-leaf.Strip; h += 2 {
					q := image.Pt(int((u-v.low.X)*perMM), int((v.high.Y-h)*perMM))
					if !q.In(sheet.Bounds()) {
						continue
					}
					if y, _, _, _ := sheet.At(q.X, q.Y).RGBA(); y < 0x8000 {
						dark++
					}
				}
			}
			if dark > 0 {
				t.Errorf("the page of row %d, column %d shows %d mm² of the body and is left out", row, col, 4*dark)
			}
		}
	}
	if left < 5 {
		t.Errorf("only %d of %d pages are left out", left, w.rows*w.cols)
	}
	solved.Body.Points = points[:3] // without limbs nothing is known to be background
	if s, err = Body(solved, map[string]*picture.Picture{"body.jpg": photographOf(t, "body.jpg", img)}); err != nil {
		t.Fatal(err)
	}
	if len(s.views[0].limbs) > 0 {
		t.Error("pages are left out of a body whose limbs are not known")
	}
}
