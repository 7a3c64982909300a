package nest

import (
	"context"
	"math"
	"os"
	"reflect"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// laid is where a part comes to lie.
func laid(p Part, at Place) []r2.Vec { return at.Rigid().ApplyAll(p.Outline) }

// checkPlaces holds places to what Pack promises, by exact geometry and not by
// pixels: parts are on their sheets, and gap apart from each other and from what
// is blocked. A micrometre's thousandth is left to rounding.
func checkPlaces(t rapid.TB, parts []Part, places []Place, sheet Sheet, gap float64, blocked []Blocked) {
	t.Helper()
	on := map[int][][]r2.Vec{}
	for _, b := range blocked {
		on[b.Sheet] = append(on[b.Sheet], b.Outline)
	}
	for i, at := range places {
		if !at.OK {
			continue
		}
		ring := laid(parts[i], at)
		box := geom.Bounds(ring)
		if box.Min.X < -1e-6 || box.Min.Y < -1e-6 || box.Max.X > sheet.Width+1e-6 || sheet.Height > 0 && box.Max.Y > sheet.Height+1e-6 {
			t.Fatalf("part %d lies at %v, outside the sheet %v", i, box, sheet)
		}
		for k, other := range on[at.Sheet] {
			if d := apart(ring, other); d < gap-1e-6 {
				t.Fatalf("part %d and outline %d on sheet %d are %g mm apart, want %g", i, k, at.Sheet, d, gap)
			}
		}
		on[at.Sheet] = append(on[at.Sheet], ring)
	}
}

// apart is the distance between two rings' insides; negative if they overlap by
// more than rounding.
func apart(a, b []r2.Vec) float64 {
	d := math.Inf(1)
	for i := range a {
		a0, a1 := a[i], a[(i+1)%len(a)]
		for j := range b {
			b0, b1 := b[j], b[(j+1)%len(b)]
			if crosses(a0, a1, b0, b1) {
				return -1
			}
			d = min(d, geom.DistToSegment(a0, b0, b1), geom.DistToSegment(b0, a0, a1))
		}
	}
	if d > 1e-6 && (geom.Inside(a, b[0]) || geom.Inside(b, a[0])) {
		return -1
	}
	return d
}

// crosses tells whether two segments cross by more than rounding.
func crosses(a, b, c, d r2.Vec) bool {
	side := func(p, q, r r2.Vec) float64 {
		return r2.Cross(r2.Unit(r2.Sub(q, p)), r2.Sub(r, p))
	}
	opposite := func(x, y float64) bool { return min(x, y) < -1e-6 && max(x, y) > 1e-6 }
	return opposite(side(a, b, c), side(a, b, d)) && opposite(side(c, d, a), side(c, d, b))
}

// star draws a simple outline, as a rule with hollows.
func star(t *rapid.T) []r2.Vec {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	size := rapid.Float64Range(3, 120).Draw(t, "size")
	shift := r2.Vec{X: rapid.Float64Range(-99, 99).Draw(t, "x")}
	var ring []r2.Vec
	for i := range n {
		r := size * rapid.Float64Range(0.15, 1).Draw(t, "r")
		ring = append(ring, geom.Turned(2*math.Pi*float64(i)/float64(n), shift).Apply(r2.Vec{X: r}))
	}
	return ring
}

func rectangle(x, y, w, h float64) []r2.Vec {
	return []r2.Vec{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

func TestPack_anyParts_neverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := Sheet{Width: rapid.Float64Range(100, 400).Draw(t, "width"), Height: rapid.Float64Range(0, 300).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 0.5, 2, 3, 7.3}).Draw(t, "gap")
		blocked := []Blocked{{0, rectangle(10, 10, rapid.Float64Range(1, 80).Draw(t, "bw"), 55.5)}}
		var parts []Part
		for range rapid.IntRange(1, 12).Draw(t, "parts") {
			p := Part{Outline: star(t)}
			if rapid.Bool().Draw(t, "turns") {
				p.Turns = []float64{0, math.Pi / 2, math.Pi, rapid.Float64Range(0, 6).Draw(t, "turn")}
			}
			parts = append(parts, p)
		}
		places, err := Pack(context.Background(), parts, sheet, gap, blocked...)
		if err != nil {
			t.Fatal(err)
		}
		checkPlaces(t, parts, places, sheet, gap, blocked)
		for i, at := range places {
			if !at.OK && fitsEmpty(parts[i], sheet) {
				t.Fatalf("part %d would fit an empty sheet", i)
			}
		}
	})
}

// fitsEmpty tells by boxes whether a sheet could hold a part, with a pixel to
// spare.
func fitsEmpty(p Part, s Sheet) bool {
	for _, a := range append([]float64{}, p.Turns...) {
		size := geom.Bounds(geom.Turned(a, r2.Vec{}).ApplyAll(p.Outline)).Size()
		if size.X <= s.Width-Pixel && (s.Height == 0 || size.Y <= s.Height-Pixel) {
			return true
		}
	}
	size := geom.Bounds(p.Outline).Size()
	return len(p.Turns) == 0 && size.X <= s.Width-Pixel && (s.Height == 0 || size.Y <= s.Height-Pixel)
}

func TestPack_wholeSheets_areFilledExactly(t *testing.T) {
	// Parts as large as the sheet fit it, whatever the pixels; and ten plates of
	// exactly a quarter of a sheet need two and a half sheets.
	sheet := Sheet{Width: 190.3, Height: 277.1}
	var parts []Part
	for range 10 {
		parts = append(parts, Part{Outline: rectangle(0, 0, sheet.Width, sheet.Height)})
	}
	places, err := Pack(context.Background(), parts, sheet, 5)
	if err != nil {
		t.Fatal(err)
	}
	for i, at := range places {
		if !at.OK || at.Sheet != i {
			t.Errorf("a part as large as the sheet: part %d lies at %+v", i, at)
		}
	}
	checkPlaces(t, parts, places, sheet, 5, nil)

	parts = parts[:0]
	for range 10 {
		parts = append(parts, Part{Outline: rectangle(7, -3, 100, 60)})
	}
	places, err = Pack(context.Background(), parts, Sheet{Width: 200, Height: 120}, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, at := range places {
		if at.Sheet != i/4 {
			t.Errorf("plate %d of ten lies on sheet %d, want %d", i, at.Sheet, i/4)
		}
	}
	checkPlaces(t, parts, places, Sheet{200, 120}, 0, nil)
}

func TestPack_hollow_isUsed(t *testing.T) {
	u := []r2.Vec{{}, {X: 100}, {X: 100, Y: 100}, {X: 80, Y: 100}, {X: 80, Y: 20}, {X: 20, Y: 20}, {X: 20, Y: 100}, {Y: 100}}
	parts := []Part{{Outline: u}, {Outline: rectangle(0, 0, 50, 70)}}
	sheet := Sheet{Width: 100, Height: 100}
	places, err := Pack(context.Background(), parts, sheet, 3)
	if err != nil {
		t.Fatal(err)
	}
	checkPlaces(t, parts, places, sheet, 3, nil)
	if places[1].Sheet != 0 {
		t.Errorf("the small part lies on sheet %d, not in the hollow of the large one", places[1].Sheet)
	}
}

func TestPack_partTurnsToFit(t *testing.T) {
	strap := Part{Outline: rectangle(0, 0, 300, 20), Turns: []float64{0, math.Pi / 2}}
	rigid := Part{Outline: rectangle(0, 0, 300, 20)}
	places, err := Pack(context.Background(), []Part{strap, rigid}, Sheet{Width: 200, Height: 301}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if !places[0].OK || places[0].Turn != math.Pi/2 {
		t.Errorf("the strap lies at %+v", places[0])
	}
	if places[1].OK {
		t.Errorf("a part that cannot turn nor fit lies at %+v", places[1])
	}
}

func TestPack_blocked_sheetIsFull(t *testing.T) {
	full := Blocked{0, rectangle(0, 0, 200, 200)}
	outside := Blocked{0, rectangle(-50, -80, 20, 30)} // does not matter
	half := Blocked{1, rectangle(0, 0, 200, 110)}
	parts := []Part{{Outline: rectangle(0, 0, 150, 80)}}
	places, err := Pack(context.Background(), parts, Sheet{200, 200}, 2, full, half, outside)
	if err != nil {
		t.Fatal(err)
	}
	if places[0].Sheet != 1 {
		t.Errorf("the part lies on sheet %d, want the free half of sheet 1", places[0].Sheet)
	}
	checkPlaces(t, parts, places, Sheet{200, 200}, 2, []Blocked{full, half})
}

func TestPack_wrongInput_isAnError(t *testing.T) {
	ok := []Part{{Outline: rectangle(0, 0, 10, 10)}}
	line := []Part{{Outline: []r2.Vec{{}, {X: 5}, {X: 9}}}}
	nan := []Part{{Outline: []r2.Vec{{}, {X: math.NaN()}, {X: 9, Y: 9}}}}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	for name, try := range map[string]func() error{
		"no width":     func() error { _, err := Pack(context.Background(), ok, Sheet{}, 0); return err },
		"negative gap": func() error { _, err := Pack(context.Background(), ok, Sheet{50, 50}, -1); return err },
		"a line":       func() error { _, err := Pack(context.Background(), line, Sheet{50, 50}, 0); return err },
		"not a number": func() error { _, err := Pack(context.Background(), nan, Sheet{50, 50}, 0); return err },
		"called off":   func() error { _, err := Pack(ended, ok, Sheet{50, 50}, 0); return err },
	} {
		if try() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestPack_twice_isTheSame(t *testing.T) {
	var parts []Part
	for i := range 30 {
		parts = append(parts, Part{Outline: rectangle(0, 0, 30+float64(i%7), 40), Turns: []float64{0, 1, 2}})
	}
	a, _ := Pack(context.Background(), parts, Sheet{200, 200}, 3)
	b, _ := Pack(context.Background(), parts, Sheet{200, 200}, 3)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same parts were laid in two ways")
	}
}

// data is a file of the data folder.
func data(t testing.TB, name string) []byte {
	dir := os.Getenv("TASSET_DATA")
	if dir == "" && os.Getenv("CI") == "true" {
		t.Fatal("TASSET_DATA must name the data folder here")
	}
	if dir == "" {
		t.Skip("TASSET_DATA names no data folder: the published instances are not tried")
	}
	b, err := os.ReadFile(dir + "/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
