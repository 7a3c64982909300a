package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func photographOf(t testing.TB, name string, img image.Image) *picture.Picture {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	p, _, err := picture.Read(name, b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func plain(w, h int) image.Image {
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 200
	}
	return img
}

func textsOn(p draw.Page) []*draw.Text {
	var out []*draw.Text
	for _, it := range p.Items {
		if t, ok := it.(*draw.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

// inside fails if a word stands out over the page.
func inside(t *testing.T, p draw.Page) {
	t.Helper()
	for _, w := range textsOn(p) {
		for _, c := range w.Corners() {
			if c.X < 0 || c.Y < 0 || c.X > p.Width || c.Y > p.Height {
				t.Errorf("%q of %q stands out over the page, at %.0f, %.0f of %.0f × %.0f mm", w.S, p.Title, c.X, c.Y, p.Width, p.Height)
				break
			}
		}
	}
}

// apartFrom tells whether two upright words keep clear of each other.
func apartFrom(a, b *draw.Text) bool {
	p, q := a.Corners(), b.Corners()
	return p[1].X <= q[0].X || q[1].X <= p[0].X || p[2].Y <= q[0].Y || q[2].Y <= p[0].Y
}

// Thirty marks on one spot: every name can be read, none covers another, and all
// is on the page.
func TestMarked_namesKeepClear(t *testing.T) {
	shot := photo.Shot{Name: "front.jpg", View: photo.HeadFront, Width: 300, Height: 400}
	for i := range 30 {
		shot.Marks = append(shot.Marks, photo.Mark{Name: fmt.Sprintf("right side of the head %d", i), At: photo.Pixel{X: 150 + float64(i%5), Y: 200 + float64(i%7)}})
	}
	shot.Ruler = &photo.Ruler{From: photo.Pixel{X: 20, Y: 300}, To: photo.Pixel{X: 22, Y: 60}, Length: 300}
	page, err := Marked(photographOf(t, shot.Name, plain(300, 400)), shot, nil)
	if err != nil {
		t.Fatal(err)
	}
	inside(t, page)
	words := textsOn(page)
	for i, a := range words {
		for _, b := range words[:i] {
			if !apartFrom(a, b) {
				t.Errorf("%q covers %q", a.S, b.S)
			}
		}
	}
	if n := len(words); n < 2*30 {
		t.Errorf("%d words for 30 marks", n)
	}
}

// A mark stands on the sheet where it stands in the picture.
func TestMarked_ringsStandOnTheirPixels(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 800, 600))
	img.SetGray(600, 150, color.Gray{Y: 255})
	at := photo.Pixel{X: 600.5, Y: 150.5}
	shot := photo.Shot{Name: "x.jpg", Width: 800, Height: 600, Marks: []photo.Mark{{Name: "chin", At: at}, {Name: "crown", At: photo.Pixel{X: 100, Y: 500}}}}
	page, err := Marked(photographOf(t, "x.jpg", img), shot, nil)
	if err != nil {
		t.Fatal(err)
	}
	pic := page.Items[0].(*draw.Picture)
	want := r2.Vec{X: pic.At.X + pic.Across.X*at.X/800, Y: pic.At.Y + pic.Up.Y*(1-at.Y/600)}
	for _, it := range page.Items {
		if p, ok := it.(*draw.Path); ok && p.Fill != nil && len(p.Subpaths[0]) > 20 {
			var c r2.Vec
			for _, q := range p.Subpaths[0][1:] {
				c = r2.Add(c, r2.Scale(1/float64(len(p.Subpaths[0])-1), q))
			}
			if r2.Norm(r2.Sub(c, want)) < 0.01 {
				return
			}
		}
	}
	t.Errorf("no ring at %v", want)
}

func TestMarked_saysWhatDoesNotFit(t *testing.T) {
	shot := photo.Shot{Name: "x.jpg", Width: 300, Height: 400, Marks: []photo.Mark{{Name: "left pupil", At: photo.Pixel{X: 100, Y: 100}}, {Name: "chin", At: photo.Pixel{X: 90, Y: 200}}, {Name: "nose tip", At: photo.Pixel{X: 95, Y: 150}}}}
	solved := &photo.Subject{Shots: []photo.Shot{shot}, Fits: []photo.Fit{
		{Mark: 0, Name: "left pupil", MM: 12.3, Surprise: 80, Redundancy: 0.8, Expected: photo.Pixel{X: 120, Y: 100}},
		{Mark: 1, Name: "chin", MM: 0.4, Surprise: 1, Redundancy: 0.1},
		{Mark: 2, Name: "nose tip", MM: 0.7, Surprise: 1, Redundancy: 0.6, Expected: photo.Pixel{X: 96, Y: 150}},
	}}
	page, err := Marked(photographOf(t, "x.jpg", plain(300, 400)), shot, solved)
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, w := range textsOn(page) {
		all.WriteString(w.S + "\n")
		if strings.Contains(w.S, "DOES NOT FIT") != (w.Color == alarm && !w.Bold) && w.Size == 3 {
			t.Errorf("%q is printed in %v", w.S, w.Color)
		}
	}
	for _, want := range []string{"12.3 mm off: DOES NOT FIT", "0.4 mm off; nothing checks it", "0.7 mm off\n"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("no %q in\n%s", want, all.String())
		}
	}
	solved.Fits[0].Surprise = 1 // as when all marks are bad
	if page, err = Marked(photographOf(t, "x.jpg", plain(300, 400)), shot, solved); err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(textsOn(page), func(w *draw.Text) bool { return w.S == "12.3 mm off: LOOK AGAIN" && w.Color == alarm }) {
		t.Error("a mark 12 mm off is not shown")
	}
	solved.Shots[0].Name = "others.jpg"
	if page, err = Marked(photographOf(t, "x.jpg", plain(300, 400)), shot, solved); err != nil {
		t.Fatal(err)
	}
	if said := fmt.Sprint(wordsOf(page)); !strings.Contains(said, "This picture was left out") || !strings.Contains(said, "[100, 100]") || strings.Contains(said, "how far") {
		t.Errorf("of a picture that was left out: %s", said)
	}
	shot.Width = 400
	if _, err := Marked(photographOf(t, "x.jpg", plain(300, 400)), shot, nil); err == nil || !strings.Contains(err.Error(), "300 × 400") {
		t.Errorf("marks of another picture: %v", err)
	}
}

func wordsOf(p draw.Page) (all []string) {
	for _, w := range textsOn(p) {
		all = append(all, w.S)
	}
	return all
}

func TestApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 20).Draw(t, "want")
		for i := 1; i < len(want); i++ {
			want[i] = min(want[i], want[i-1])
		}
		got := apart(want, 3, -10, 110)
		for i, y := range got {
			if y < -10-1e-9 || y > 110+1e-9 || i > 0 && got[i-1]-y < 3-1e-9 {
				t.Fatalf("%v gives %v", want, got)
			}
		}
		free := true
		for i := 1; i < len(want); i++ {
			free = free && want[i-1]-want[i] >= 3
		}
		for i := range want {
			if free && math.Abs(got[i]-want[i]) > 1e-9 {
				t.Fatalf("%v was moved to %v without need", want, got)
			}
		}
	})
}
