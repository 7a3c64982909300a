package sheet

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"strings"
	"sync"
	"testing"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// target is a photograph of a board that stands in the plane z = 0, painted from
// what each pixel's ray meets: dark bars 4 mm wide at u = −100, −50, 0, 50, 100
// and at heights of −50, 0, 50, 100, 150; and in front of it, 100 mm nearer, a
// dark bar across at a height of 200.
func target(cam photo.Camera, w, h int) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, w, h))
	on := func(p photo.Pixel, z float64) r3.Vec {
		d := cam.Ray(p)
		return r3.Add(cam.Frame.O, r3.Scale((z-cam.Frame.O.Z)/d.Z, d))
	}
	near := func(x, low, high float64) bool {
		c := math.Round(x/50) * 50
		return math.Abs(x-c) < 2 && c >= low && c <= high
	}
	for y := range h {
		for x := range w {
			dark := 0
			for i := range 9 { // 3 × 3 rays a pixel
				p := photo.Pixel{X: float64(x) + float64(i%3)/3 + 1./6, Y: float64(y) + float64(i/3)/3 + 1./6}
				q, f := on(p, 0), on(p, 100)
				if near(q.X, -100, 100) || near(q.Y, -50, 150) || math.Abs(f.Y-200) < 2 {
					dark++
				}
			}
			img.Pix[y*w+x] = uint8(230 - 25*dark)
		}
	}
	return img
}

// crooked is a camera at 1.5 m that is turned, tilted and rolled.
func crooked() photo.Camera {
	turn := func(f geom.Frame, axis r3.Vec, deg float64) geom.Frame {
		r := r3.NewRotation(deg*math.Pi/180, axis)
		return geom.Frame{O: f.O, X: r.Rotate(f.X), Y: r.Rotate(f.Y), Z: r.Rotate(f.Z)}
	}
	f := geom.Frame{O: r3.Vec{X: 60, Y: 40, Z: 1500}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: -1}, Z: r3.Vec{Z: -1}}
	f = turn(f, r3.Vec{Y: 1}, 3)
	f = turn(f, r3.Vec{X: 1}, -4)
	f = turn(f, r3.Vec{Z: 1}, 2.5)
	return photo.Camera{Frame: f, Focal: 1800, Centre: photo.Pixel{X: 450, Y: 600}}
}

var painted = sync.OnceValue(func() *image.Gray { return target(crooked(), 900, 1200) })

// solvedTarget is the target as a solved head picture.
func solvedTarget(t testing.TB) (*photo.Solution, map[string]*picture.Picture) {
	cam := crooked()
	name := "target.jpg"
	p := photographOf(t, name, painted())
	points := []photo.Point{
		{Name: "chin", At: r3.Vec{Y: -95, Z: 88}}, {Name: "crown", At: r3.Vec{Y: 130, Z: 5}},
		{Name: "left pupil", At: r3.Vec{X: 31, Y: 18, Z: 91}}, {Name: "right pupil", At: r3.Vec{X: -31, Y: 18, Z: 91}}, {Name: "nose tip", At: r3.Vec{Y: -18, Z: 121}},
	}
	shot := photo.Shot{Name: name, View: photo.HeadFront, Width: 900, Height: 1200}
	for _, q := range points {
		shot.Marks = append(shot.Marks, photo.Mark{Name: q.Name, At: cam.Project(q.At)})
	}
	head := &photo.Subject{Shots: []photo.Shot{shot}, Cameras: []photo.Camera{cam}, Points: points}
	return &photo.Solution{Head: head, Lengths: []photo.Length{{Name: "chin to crown", Value: 225, SD: 2}}}, map[string]*picture.Picture{name: p}
}

// centre is the middle of the darkness along a line of samples.
func centre(n int, dark func(i int) float64) float64 {
	sum, moment := 0.0, 0.0
	for i := range n {
		d := max(dark(i)-0.15, 0)
		sum, moment = sum+d, moment+d*(float64(i)+0.5)
	}
	return moment / sum
}

// A board photographed askew stands upright, level and at true size on its plane;
// what is 100 mm nearer reads larger by 100 / (D − 100) about the lens's height
// (source: the places where the bars were painted; similar triangles).
func TestPlane_isUprightAndTrue(t *testing.T) {
	solved, pictures := solvedTarget(t)
	s, err := Head(solved, pictures)
	if err != nil {
		t.Fatal(err)
	}
	v := s.views[0]
	img, err := jpeg.Decode(bytes.NewReader(v.encoded))
	if err != nil {
		t.Fatal(err)
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	perMM := float64(w) / (v.high.X - v.low.X)
	dark := func(x, y int) float64 {
		r, _, _, _ := img.At(x, y).RGBA()
		return 1 - float64(r)/65535
	}
	px := func(u, height float64) (int, int) {
		return int((u - v.low.X) * perMM), int((v.high.Y - height) * float64(h) / (v.high.Y - v.low.Y))
	}
	const around = 8.0 // mm
	upright := func(u, height float64) float64 {
		x0, y := px(u-around, height)
		return v.low.X + (float64(x0)+centre(int(2*around*perMM), func(i int) float64 { return dark(x0+i, y) }))/perMM
	}
	level := func(u, height float64) float64 {
		x, y0 := px(u, height+around)
		return v.high.Y - (float64(y0)+centre(int(2*around*perMM), func(i int) float64 { return dark(x, y0+i) }))/perMM
	}
	for _, u := range []float64{-100, -50, 0, 50, 100} {
		for _, height := range []float64{-25, 25, 125} {
			if got := upright(u, height); math.Abs(got-u) > 0.2 {
				t.Errorf("the upright bar at %.0f stands at %.2f mm at a height of %.0f", u, got, height)
			}
		}
	}
	for _, height := range []float64{-50, 0, 50, 100, 150} {
		for _, u := range []float64{-75, -25, 25, 75} {
			if got := level(u, height); math.Abs(got-height) > 0.2 {
				t.Errorf("the level bar at %.0f stands at %.2f mm, %.0f aside", height, got, u)
			}
		}
	}
	lens, d := 40.0, 1500.0
	want := lens + (200-lens)*d/(d-100)
	if v.high.Y > want+around {
		t.Fatal("the near bar is on the sheet; it was meant to stand above it")
	}
	if part := v.plane.larger(100); math.Abs(part-100./1400) > 1e-9 {
		t.Errorf("100 mm nearer reads %.4f larger, want 1/14", part)
	}
	if got := v.plane.seen(r3.Vec{Y: 200, Z: 100}).Y; math.Abs(got-want) > 1e-9 {
		t.Errorf("a point 100 mm nearer appears at %.2f, want %.2f", got, want)
	}
}

// Planes of the views: seen from the wearer's left, forward is to the left.
func TestPlane_ofEachView(t *testing.T) {
	for v, want := range map[photo.View]r3.Vec{photo.HeadFront: {X: 1}, photo.HeadLeft: {Z: -1}, photo.HeadRight: {Z: 1}, photo.BodyFront: {X: 1}, photo.BodyLeft: {Z: -1}} {
		if got := planeOf(v, crooked()).right; r3.Norm(r3.Sub(got, want)) > 1e-12 {
			t.Errorf("%v: to the right is %v, want %v", v, got, want)
		}
	}
}

func TestSheet_saysWhatIsTrue(t *testing.T) {
	solved, pictures := solvedTarget(t)
	s, err := Head(solved, pictures)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := s.Pages(papers[0])
	if err != nil {
		t.Fatal(err)
	}
	fit, err := s.Fitted(papers[1])
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range append(pages, fit, s.Whole()) {
		inside(t, p)
	}
	var all strings.Builder
	for _, w := range textsOn(pages[0]) {
		all.WriteString(w.S + " ")
	}
	// 121 / (1500 − 121) = 8.8 %; 100 / 1.0877 = 91.9; the tip is seen from 58 mm above it.
	for _, want := range []string{"nose tip is 121 mm nearer", "reads 8.8 % larger (100 mm on the sheet are 92)", "stands 5 mm too low", "225 ± 4 mm"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("no %q in\n%s", want, all.String())
		}
	}
	if !strings.Contains(fit.Title, "1 : ") {
		t.Errorf("the fitted page does not say its scale: %q", fit.Title)
	}
}

func TestSheet_refuses(t *testing.T) {
	solved, pictures := solvedTarget(t)
	if _, err := Body(solved, pictures); err == nil {
		t.Error("a body that was not solved was drawn")
	}
	if _, err := Head(solved, nil); err == nil || !strings.Contains(err.Error(), "target.jpg") {
		t.Errorf("without its picture: %v", err)
	}
	solved.Head.Cameras[0].Frame.O.Z = 20
	if _, err := Head(solved, pictures); err == nil || !strings.Contains(err.Error(), "cannot be") {
		t.Errorf("a camera in the head: %v", err)
	}
}

// A body's sheet has its heights from the floor.
func TestBody_heightsFromTheFloor(t *testing.T) {
	cam := photo.Camera{Frame: geom.Frame{O: r3.Vec{Y: 1000, Z: 3000}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: -1}, Z: r3.Vec{Z: -1}}, Focal: 900, Centre: photo.Pixel{X: 300, Y: 400}}
	points := []photo.Point{
		{Name: "crown", At: r3.Vec{Y: 1712, Z: 20}}, {Name: "crotch", At: r3.Vec{Y: 801}},
		{Name: "left knee", At: r3.Vec{X: 100, Y: 480, Z: 60}}, {Name: "right knee", At: r3.Vec{X: -100, Y: 470, Z: 60}}, {Name: "left toe", At: r3.Vec{X: 110, Z: 185}},
	}
	shot := photo.Shot{Name: "body.jpg", View: photo.BodyFront, Width: 600, Height: 800}
	for _, q := range points {
		shot.Marks = append(shot.Marks, photo.Mark{Name: q.Name, At: cam.Project(q.At)})
	}
	solved := &photo.Solution{Body: &photo.Subject{Shots: []photo.Shot{shot}, Cameras: []photo.Camera{cam}, Points: points}}
	s, err := Body(solved, map[string]*picture.Picture{"body.jpg": photographOf(t, "body.jpg", plain(600, 800))})
	if err != nil {
		t.Fatal(err)
	}
	fit, err := s.Fitted(papers[0])
	if err != nil {
		t.Fatal(err)
	}
	inside(t, fit)
	pages, err := s.Pages(papers[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		inside(t, p)
	}
	words := map[string]bool{}
	for _, w := range append(textsOn(fit), textsOn(pages[0])...) {
		words[w.S] = true
	}
	for _, want := range []string{"crown 1712", "crotch 801", "knee 475", "1700", "0"} {
		if !words[want] {
			t.Errorf("%q is not on the sheet: %v", want, words)
		}
	}
	// The crown appears at 1717 and the toe 66 mm below the floor: with the room
	// round them 1943 mm, 216 of a page at 1 : 9 and 205 at 1 : 9.5; 245 are free
	// less 30 for rulers and title.
	if fit.Title != "Reference sheet of the body, 1 : 9.5" {
		t.Errorf("it is fitted as %q", fit.Title)
	}
}
