package photo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
	"tasset/internal/report"
)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g ± %g", what, got, want, within)
	}
}

// sightAt is an exact sight of a camera at breast height, so far in front of the
// wearer, pitched down and turned to the side.
func sightAt(distance, pitch, yaw float64) Sight {
	sin, cos := math.Sincos(yaw)
	level := geom.Frame{X: r3.Vec{X: cos, Z: -sin}, Y: r3.Vec{Y: -1}, Z: r3.Vec{X: -sin, Z: -cos}}
	sp, cp := math.Sincos(pitch)
	f := geom.Frame{O: r3.Scale(-distance, level.Z), X: level.X}
	f.O.Y = 1200
	f.Y = r3.Add(r3.Scale(cp, level.Y), r3.Scale(-sp, level.Z))
	f.Z = r3.Add(r3.Scale(cp, level.Z), r3.Scale(sp, level.Y))
	return Sight{Picture: "front.jpg", Width: 3000, Height: 4000, Camera: Camera{Frame: f, Focal: 3000, Centre: Pixel{1500, 2000}}}
}

// A pinhole by hand: at 2 m with 3000 px, 300 px are 200 mm at the body's middle
// and 185 mm where it is 150 mm nearer.
func TestSight_readsAPinhole(t *testing.T) {
	s := sightAt(2000, 0, 0)
	for depth, want := range map[float64]float64{0: 200, 150: 185, -100: 210} {
		r, _, err := s.Read(LongRuler{Name: "bar", From: Pixel{1400, 900}, To: Pixel{1700, 900}, Depth: Depth{Value: depth}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "the bar", r.Value, want, 1e-9)
		// Depth 30 of the rest of the way, tilt √3/2·(5°)², two ends of 2 mm.
		rel := math.Hypot(30/(2000-depth), math.Sqrt(3)/2*math.Pow(5*math.Pi/180, 2))
		near(t, "its deviation", r.SD, math.Sqrt(rel*rel*want*want+8), 1e-3)
	}
	p, err := s.Place(Pixel{1800, 2300}, 50)
	if want := (r3.Vec{X: 195, Y: 1005, Z: 50}); err != nil || r3.Norm(r3.Sub(p, want)) > 1e-9 {
		t.Errorf("300 px right of the middle and 300 below, 50 mm in front, is %v (%v), want %v", p, err, want)
	}
}

// A camera that looks down or stands aside still measures in the upright plane
// square to its view: what stands there is read at its length wherever it is.
func TestSight_measuresUpright(t *testing.T) {
	for _, s := range []Sight{sightAt(2500, .09, 0), sightAt(2500, .05, 1.5), sightAt(1800, -.1, -.7)} {
		n := s.towards()
		side := r3.Cross(r3.Vec{Y: 1}, n)
		for _, ends := range [][2]r2.Vec{{{X: -300, Y: 500}, {X: 300, Y: 500}}, {{X: 100, Y: 700}, {X: 250, Y: 1700}}} {
			at := func(e r2.Vec) Pixel {
				return s.Camera.Project(r3.Add(r3.Scale(120, n), r3.Add(r3.Scale(e.X, side), r3.Vec{Y: e.Y})))
			}
			r, _, err := s.Read(LongRuler{From: at(ends[0]), To: at(ends[1]), Depth: Depth{Value: 120}})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "length", r.Value, r2.Norm(r2.Sub(ends[1], ends[0])), 1e-9)
		}
	}
}

// The published trap: a thing d nearer than the scale reads d/(D−d) too large,
// percentages worked out by formula, d/(D − d), once by hand.
func TestSight_depthTable(t *testing.T) {
	for _, c := range []struct{ way, depth, percent float64 }{{1000, 100, 11.1}, {1500, 50, 3.4}, {2000, 150, 8.1}, {3000, 150, 5.3}, {4000, 20, .5}} {
		s := sightAt(c.way, 0, 0)
		flat, _, _ := s.Read(LongRuler{From: Pixel{1000, 2000}, To: Pixel{2000, 2000}})
		deep, _, _ := s.Read(LongRuler{From: Pixel{1000, 2000}, To: Pixel{2000, 2000}, Depth: Depth{Value: c.depth}})
		near(t, fmt.Sprintf("too large at %g mm", c.way), 100*(flat.Value/deep.Value-1), c.percent, .06)
	}
}

// A bar of 1.2 m held 150 mm in front, its depth told to ± 30 mm, scale from a
// 300 mm ruler whose depth is ± 20 mm: the prototype found RMS errors of 2.1 %
// at 2 m and 1.6 % at 3 m (600 trials or so, good to some 4 %). The stated
// deviation must be as large, and 95 % of bars inside 95 %.
func TestSight_propErrorsAreAsTold(t *testing.T) {
	for way, want := range map[float64]float64{2000: 2.14, 3000: 1.57} {
		chance := rand.New(rand.NewPCG(3, uint64(way)))
		var sum, told float64
		inside := 0
		const trials = 4000
		for range trials {
			normal := func(sd float64) float64 { return sd * chance.NormFloat64() }
			const f, length, ruler = 3000.0, 1200.0, 300.0
			// The ruler as it was held, and the scale that it gives: mm a pixel at the body.
			rulerPx := ruler*math.Cos(normal(tiltSD))*f/(way-normal(20)) + normal(math.Sqrt2*f/way)
			s := sightAt(way, 0, 0)
			s.Camera.Frame.O.Z = f * ruler / rulerPx // the way that keeps f and the scale
			s.ScaleSD = norm(20/way, tiltShare, math.Sqrt2/ruler)
			// The bar as it was held.
			px := length*math.Cos(normal(tiltSD))*f/(way-150-normal(30)) + normal(math.Sqrt2*2*f/way)
			r, _, err := s.Read(LongRuler{From: Pixel{1500 - px/2, 1000}, To: Pixel{1500 + px/2, 1000}, Depth: Depth{Value: 150}})
			if err != nil {
				t.Fatal(err)
			}
			miss := r.Value - length
			sum, told = sum+miss*miss, told+r.SD*r.SD
			if math.Abs(miss) <= r.HalfWidth() {
				inside++
			}
		}
		rms, said, covered := 100*math.Sqrt(sum/trials)/1200, 100*math.Sqrt(told/trials)/1200, float64(inside)/trials
		t.Logf("at %.0f mm: RMS %.2f %%, told %.2f %%, inside %.1f %%", way, rms, said, 100*covered)
		near(t, "RMS error, %", rms, want, .1)
		near(t, "told deviation over RMS error", said/rms, 1, .06)
		near(t, "share inside 95 %", covered, .95, .02)
	}
}

// A 400 mm bar in a picture at 2 m, laid over 120 mm in front: read within 2 %
// where its depth is told to 15 mm, and exactly where everything is exact.
func TestLay_readsABar(t *testing.T) {
	s := sightAt(2000, .03, 0)
	n := r3.Vec{Z: 120}
	left, right := s.Camera.Project(r3.Add(n, r3.Vec{X: -200, Y: 1100})), s.Camera.Project(r3.Add(n, r3.Vec{X: 200, Y: 1100}))
	middle := Pixel{(left.X + right.X) / 2, (left.Y + right.Y) / 2}
	o := Overlay{Name: "bar", Picture: "bar.jpg", Width: 1000, Height: 200, Over: &s, At: middle, Depth: Depth{Value: 120}}
	o.ScaleX = (right.X - left.X) / 800 // the bar is 800 px of its own picture
	o.ScaleY = o.ScaleX
	l, _, err := Lay(o)
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := l.Read("bar", Pixel{100, 100}, Pixel{900, 100}, "")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bar", r.Value, 400, 1e-9)
	o.Depth.Value = 135
	l, _, _ = Lay(o)
	r, _, _ = l.Read("bar", Pixel{100, 100}, Pixel{900, 100}, "")
	near(t, "bar, depth 15 mm off", r.Value, 400, 8)
	if r.Checked {
		t.Error("a length by depth alone counts as checked")
	}
}

// An overlay, flipped, stretched and turned: by hand.
func TestOverlay_onPhotograph(t *testing.T) {
	o := Overlay{Width: 400, Height: 200, At: Pixel{1000, 700}, Turn: math.Pi / 2, ScaleX: 2, ScaleY: .5, Flip: true}
	// 100 right and 60 up of the middle: flipped −100, stretched (−200, 30) with
	// y up, a quarter turn counter-clockwise (−30, −200), on the picture (−30, +200).
	got := o.OnPhotograph(Pixel{300, 40})
	near(t, "x", got.X, 970, 1e-9)
	near(t, "y", got.Y, 900, 1e-9)
}

// From near, a size by depth alone is doubted; from where one should stand it is
// not.
func TestLay_doubtsWhatIsNear(t *testing.T) {
	for way, want := range map[float64]report.Level{750: report.Doubt, 2500: report.Note} {
		s := sightAt(way, 0, 0)
		_, findings, err := Lay(Overlay{Name: "blade", Picture: "blade.jpg", Width: 100, Height: 100, Over: &s, At: Pixel{1500, 2000}, ScaleX: 1, ScaleY: 1, Depth: Depth{Value: 150}})
		if err != nil || report.Worst(findings) != want {
			t.Errorf("from %.0f mm: %v, %v", way, findings, err)
		}
	}
}

// A known length beats the depth: scale and size come from it, it counts as
// checked, and the maker is told what scale would look right.
func TestLay_knownLength(t *testing.T) {
	s := sightAt(2000, 0, 0)
	o := Overlay{Name: "blade", Picture: "blade.jpg", Width: 1000, Height: 300, Over: &s, At: Pixel{1500, 2000}, ScaleX: 1.5, ScaleY: 1.5,
		Known: &Known{From: Pixel{100, 150}, To: Pixel{500, 150}, Length: 300}}
	l, findings, err := Lay(o) // drawn 600 px · 2/3 mm = 400 mm
	if err != nil {
		t.Fatal(err)
	}
	r, _, _ := l.Read("blade", Pixel{0, 150}, Pixel{1000, 150}, "")
	near(t, "blade", r.Value, 750, 1e-9)
	if !r.Checked || len(findings) != 1 || !strings.Contains(findings[0].Perhaps, "112.5 %") || !strings.Contains(findings[0].Said, "33 % larger") {
		t.Errorf("checked %v, findings %v", r.Checked, findings)
	}
	doubtsKnown(t, o)
	o.Over, o.ScaleX, o.ScaleY = nil, 1, 1
	l, findings, err = Lay(o)
	if err != nil || len(findings) != 0 {
		t.Fatalf("laid over nothing: %v, %v", err, findings)
	}
	r, _, _ = l.Read("blade", Pixel{0, 150}, Pixel{1000, 150}, "")
	near(t, "blade laid over nothing", r.Value, 750, 1e-9)
	// Two ends of a pixel on 400, half a millimetre on 300.
	near(t, "its share", l.Share, math.Hypot(math.Sqrt2/400, .5/300), 1e-12)
	o.Known.To.X = 140
	_, findings, _ = Lay(o)
	if report.Worst(findings) != report.Doubt || !strings.Contains(findings[0].Said, "only 40 pixels") {
		t.Errorf("a known length of 40 pixels gives %v", findings)
	}
}

// doubtsKnown gives other known lengths to a picture on which it is drawn 400 mm.
func doubtsKnown(t *testing.T, o Overlay) {
	t.Helper()
	for _, c := range []struct {
		length float64
		level  report.Level
		ask    string
	}{
		{380, report.Note, "To see it"},
		{330, report.Note, "To see it"},
		{310, report.Doubt, "If the length"},
		{520, report.Doubt, "If the length"},
		{4000, report.Doubt, "Was 40 cm meant, not 400 cm?"},
		{42, report.Doubt, "Was 42 cm meant, not 4.2 cm?"},
		{40 * 25.4, report.Doubt, "Was 40 cm meant, not 40 in?"},
		{160, report.Doubt, "Was 16 in meant, not 16 cm?"},
		{400 * 25.4, report.Doubt, "Was 400 mm meant, not 400 in?"},
		{16, report.Doubt, "Was 16 in meant, not 16 mm?"},
	} {
		o.Known = &Known{From: o.Known.From, To: o.Known.To, Length: c.length}
		_, findings, err := Lay(o)
		if err != nil {
			t.Fatal(err)
		}
		text := findings[0].String()
		if findings[0].Level != c.level || !strings.HasPrefix(findings[0].Perhaps, c.ask) || strings.Contains(text, "depth") || strings.Contains(text, "checked") {
			t.Errorf("a known length of %g mm gives %v, which should begin to ask %q", c.length, findings, c.ask)
		}
	}
}

// An ellipse of 300 by 120 mm with a point at one end, drawn on a picture that
// is laid over flipped, turned and stretched back into shape: its size comes out
// within 0.2 mm, and so does every point of it.
func TestTrace_hasItsTrueSize(t *testing.T) {
	s := sightAt(2500, .06, .3)
	const depth = 80.0
	shape := func(a float64) r2.Vec { // mm, from the middle
		sin, cos := math.Sincos(a)
		return r2.Vec{X: 150 * cos, Y: 60 * sin}
	}
	o := Overlay{Name: "plate", Picture: "plate.png", Width: 1200, Height: 900, Over: &s, At: Pixel{1700, 1500}, Turn: .4, Flip: true, Depth: Depth{Value: depth}}
	// How large 1 mm is on the photograph where the middle stands, by moving the
	// point there along the camera's own axes.
	p, err := s.Place(o.At, depth)
	if err != nil {
		t.Fatal(err)
	}
	q := s.Camera.Project(r3.Add(p, s.Camera.Frame.X))
	perMM := q.X - o.At.X
	o.ScaleX, o.ScaleY = perMM/3, perMM/4 // the picture has 3 px a mm across and 4 down
	l, _, err := Lay(o)
	if err != nil {
		t.Fatal(err)
	}
	var outline []TracePoint
	for i := range 40 {
		v := shape(2 * math.Pi * float64(i) / 40)
		outline = append(outline, TracePoint{At: Pixel{600 - 3*v.X, 450 - 4*v.Y}, Corner: i == 0}) // −: the picture is flipped
	}
	tr, err := l.Trace(outline, "")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "width", tr.Width, 300, .2)
	near(t, "height", tr.Height, 120, .2)
	if geom.Area(tr.Points) < 0 {
		t.Error("it runs clockwise")
	}
	var corners int
	for i, v := range tr.Points {
		near(t, "a point's place on the ellipse", math.Hypot(v.X/150, v.Y/60), 1, 1e-9)
		if tr.Corner[i] {
			corners++
			near(t, "the corner's x", v.X, 150, 1e-9)
		}
	}
	if corners != 1 {
		t.Errorf("%d corners, want 1", corners)
	}
	for _, v := range geom.SmoothRing(tr.Points, tr.Corner, 1) {
		near(t, "the smooth curve, as a share of the ellipse", math.Hypot(v.X/150, v.Y/60), 1, .2/60)
	}
	near(t, "its 95 % error", tr.Share, 1.96*math.Hypot(30/(s.Distance()-depth), tiltShare), 1e-12)
}

func TestTrace_refuses(t *testing.T) {
	known := &Known{From: Pixel{0, 0}, To: Pixel{100, 0}, Length: 100}
	l, _, err := Lay(Overlay{Name: "plate", Picture: "plate.png", Width: 800, Height: 800, ScaleX: 1, ScaleY: 1, Known: known})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		outline []Pixel
		want    []string
	}{
		{[]Pixel{{10, 10}, {90, 10}}, []string{"2 points", "3 at least"}},
		{[]Pixel{{10, 10}, {90, 10}, {90, 1000}}, []string{"point 3", "[90, 1000]", "800 pixels wide"}},
		{[]Pixel{{10, 10}, {90, 10}, {90, 90}, {10, 10}}, []string{"points 4 and 1 are one place"}},
		{[]Pixel{{10, 10}, {300, 300}, {300, 10}, {10, 300}}, []string{"crosses", "from point 1 to 2", "from point 3 to 4"}},
		{[]Pixel{{1, 1}, {2, 1}, {2, 2}}, []string{"1 mm wide and 1 mm high", "3 mm to 6 m"}},
		{[]Pixel{{10, 10}, {90, 50}, {50, 30}, {70, 40}}, []string{"all its points lie on one line"}},
		{[]Pixel{{10, 10}, {math.NaN(), 10}, {90, 90}}, []string{"point 2", "no place"}},
	} {
		var outline []TracePoint
		for _, p := range c.outline {
			outline = append(outline, TracePoint{At: p, Corner: true})
		}
		_, err := l.Trace(outline, "costume.yaml:9")
		for _, w := range append(c.want, "costume.yaml:9", "plate") {
			if err == nil || !strings.Contains(err.Error(), w) {
				t.Errorf("%v gives %v, which lacks %q", c.outline, err, w)
			}
		}
	}
}

func TestLay_refuses(t *testing.T) {
	s := sightAt(2000, 0, 0)
	good := Overlay{Name: "blade", Picture: "blade.jpg", Width: 100, Height: 100, Over: &s, At: Pixel{1500, 2000}, ScaleX: 1, ScaleY: 1, Where: "costume.yaml:7"}
	for _, c := range []struct {
		change func(*Overlay)
		want   []string
	}{
		{func(o *Overlay) { o.Over = nil }, []string{"nothing gives it a size", "known length"}},
		{func(o *Overlay) { o.ScaleY = 0 }, []string{"100 % by 0 %", "above zero"}},
		{func(o *Overlay) { o.At = Pixel{5000, 10} }, []string{"[5000, 10]", "front.jpg", "3000 pixels wide and 4000 high"}},
		{func(o *Overlay) { o.Depth.Value = 2100 }, []string{"2100 mm", "camera stands 2000 mm"}},
		{func(o *Overlay) { o.Known = &Known{From: Pixel{5, 5}, To: Pixel{5, 5}, Length: 30} }, []string{"known length", "two places"}},
		{func(o *Overlay) { o.Width = 0 }, []string{"0 by 100 pixels"}},
	} {
		o := good
		c.change(&o)
		_, _, err := Lay(o)
		for _, w := range append(c.want, "blade") {
			if err == nil || !strings.Contains(err.Error(), w) {
				t.Errorf("the error is %v, which lacks %q", err, w)
			}
		}
	}
	if _, _, err := s.Read(LongRuler{Name: "staff", From: Pixel{9, 9}, To: Pixel{9, 9}, Where: "costume.yaml:3"}); err == nil ||
		!strings.Contains(err.Error(), "costume.yaml:3: staff: the two ends are one place, [9, 9]") {
		t.Errorf("a ruler without length gives %v", err)
	}
}
