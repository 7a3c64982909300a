package pattern

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// tube is a free round tube of 120 mm inside, 100 mm high, in 10 mm foam.
const tube = `format: 1
title: Tube
about: A tube.
code: TU
governs: [waist girth]
thickness: 10 mm
frame: {free: true}
mirror: true
rings:
  - {name: low, at: 0, size: {width: 120 mm, depth: 120 mm}}
  - {name: high, at: 100 mm, size: {width: 120 mm, depth: 120 mm}}
bands:
  - {name: wall, from: low, to: high, seams: {at: [-90 deg, 90 deg], panels: [front, back]}}
`

// makeText makes the one piece of a template's text.
func makeText(t *testing.T, text string) (*Piece, []report.Finding) {
	t.Helper()
	set, found, err := Make(context.Background(), []Order{{Name: "piece", Template: "piece"}},
		fstest.MapFS{"piece.yaml": {Data: []byte(text)}}, drawnForm(t), Material{K: 0.5, Density: 100})
	if err != nil {
		t.Fatal(err)
	}
	for i := range set.Pieces {
		checkPiece(t, &set.Pieces[i])
	}
	return &set.Pieces[0], found
}

func named(t *testing.T, p *Piece, name string) *Panel {
	t.Helper()
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			return &p.Panels[i]
		}
	}
	t.Fatalf("no panel %q", name)
	return nil
}

// A strip round the rim of a tube is a rectangle as long as the circle that the
// middle of its foam lies on: 2π·(60 + 10 + 2) mm for a tube of 60 mm inside, 10
// mm foam and 4 mm of trim. Closed form.
func TestLayers_roundATube(t *testing.T) {
	p, _ := makeText(t, tube+"layers:\n  - {name: trim, along: high, width: 12 mm, thickness: 4 mm}\n")
	total := 0.0
	for i := range p.Panels {
		s := &p.Panels[i]
		if s.Role != Strip {
			continue
		}
		if s.Thick != 4 {
			t.Errorf("strip %s is of foam of %.1f mm, want 4", s.Label, s.Thick)
		}
		box := geom.Bounds(s.Outline)
		long, wide := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
		if area := geom.Area(s.Outline); math.Abs(wide-12) > 0.01 || math.Abs(area-12*long) > 0.01*area {
			t.Errorf("strip %s is %.3f x %.3f mm, and %.1f mm² large; want a rectangle 12 mm wide", s.Label, long, wide, area)
		}
		total += long * float64(s.Copies)
	}
	if want := 2 * math.Pi * 72; math.Abs(total-want) > 0.1 {
		t.Errorf("the strips are %.3f mm long together, want %.3f", total, want)
	}
	marked := 0
	front := named(t, p, "front")
	for _, m := range front.Marks {
		if !strings.Contains(m.Text, "trim, 12 mm wide") {
			continue
		}
		marked++
		cum := geom.Lengths(m.Line)
		half := cum[len(cum)-1] / 2
		at, left := geom.AtLength(m.Line, cum, half), quarterTurn(headingAt(m.Line, cum, half))
		if up := front.Surface.Lift(r2.Add(at, r2.Scale(12, left))).Y - front.Surface.Lift(at).Y; !m.Covers || math.Abs(up-12) > 0.01 {
			t.Errorf("12 mm left of the line is %.2f mm higher, and covered: %t; want the rim", up, m.Covers)
		}
	}
	if marked != 1 {
		t.Errorf("%d marks tell where the strip goes, want 1", marked)
	}
}

// A strip round a hole cut out of a panel is as long as the hole.
func TestLayers_roundAnOpening(t *testing.T) {
	p, _ := makeText(t, tube+`openings:
  - {name: eye, view: front, round: {x: 0 mm, y: 50 mm, radius: 15 mm}}
layers:
  - {name: ring, along: eye, width: 8 mm, thickness: 3 mm}
`)
	for i := range p.Panels {
		if s := &p.Panels[i]; s.Role == Strip {
			if !strings.HasPrefix(s.Name, "ring on ") {
				t.Errorf("a strip is called %q", s.Name)
			}
			return
		}
	}
	t.Error("there is no strip")
}

// A strip that cannot follow a pointed rim is left out, and a finding says so; so
// is one too narrow to be cut, unless it is 0 mm wide and so not wanted.
func TestLayers_whatCannotBeCutIsSaid(t *testing.T) {
	const pointed = `rims:
  - {name: point, side: upper, points: [[0 deg, 99 mm], [20 deg, 40 mm], [160 deg, 40 mm], [180 deg, 60 mm], [200 deg, 40 mm], [340 deg, 40 mm]]}
`
	for _, c := range []struct {
		rims, width, said string
		strips            bool
	}{
		{pointed, "30 mm", `"trim" is left out on panel TU1: it is too wide`, false},
		{"", "2 mm", `"trim" is left out: it would be 2 mm wide`, false},
		{"", "0 mm", "", false},
		{"", "12 mm", "", true},
	} {
		p, found := makeText(t, tube+c.rims+"layers:\n  - {name: trim, along: high, width: "+c.width+", thickness: 4 mm}\n")
		told, strips := c.said == "", false
		for _, f := range found {
			if told = told || c.said != "" && strings.Contains(f.Said, c.said); c.said == "" && strings.Contains(f.Said, "strip") {
				t.Errorf("width %s: %s", c.width, f.Said)
			}
		}
		for i := range p.Panels {
			strips = strips || p.Panels[i].Role == Strip
		}
		if !told {
			t.Errorf("width %s: no finding says %q: %v", c.width, c.said, found)
		}
		if c.strips != strips {
			t.Errorf("width %s: there are strips: %v, want %v", c.width, strips, c.strips)
		}
	}
}

// A flat part is cut as it is drawn, as seen from its show face, weighs by its
// own foam, and stands where it is said.
func TestFlats_asDrawnAndPlaced(t *testing.T) {
	for _, c := range []struct {
		facing string
		mirror bool   // what is drawn to the right lies to the left, seen from the show face
		at     r3.Vec // where [30, 0] stands
	}{
		{"front", false, r3.Vec{X: 41, Y: 20, Z: 7}},
		{"back", true, r3.Vec{X: 41, Y: 20, Z: 7}},
		{"left", true, r3.Vec{X: 11, Y: 20, Z: 37}},
		{"right", false, r3.Vec{X: 11, Y: 20, Z: 37}},
		{"top", true, r3.Vec{X: 41, Y: 20, Z: 7}},
		{"bottom", false, r3.Vec{X: 41, Y: 20, Z: 7}},
	} {
		p, _ := makeText(t, tube+"flats:\n  - {name: fin, points: [[0, 0], [30 mm, 0], [0, 20 mm]], thickness: 5 mm, facing: "+c.facing+", x: 11 mm, y: 20 mm, z: 7 mm}\n")
		fin := named(t, p, "fin")
		if got := geom.Area(fin.Outline); math.Abs(got-300) > 1e-9 || fin.Thick != 5 || fin.Role != FlatPart {
			t.Errorf("%s: %.3f mm², %.1f mm thick; want 300 and 5", c.facing, got, fin.Thick)
		}
		long := r2.Vec{X: 30}
		if c.mirror {
			long.X = -30
		}
		found := false
		for i, q := range fin.Surface.Flat {
			if geom.Dist(q, long) < 1e-9 {
				found = true
				if geom.Dist(fin.Surface.Bent[i], c.at) > 1e-9 {
					t.Errorf("%s: [30, 0] stands at %v, want %v", c.facing, fin.Surface.Bent[i], c.at)
				}
			}
		}
		if !found {
			t.Errorf("%s: the outline is %v", c.facing, fin.Outline)
		}
	}
}

// What a piece weighs counts each copy of a flat part in its own foam, and pads in
// soft foam: length × breadth × thickness × density.
func TestParts_weigh(t *testing.T) {
	plain, _ := makeText(t, tube)
	p, _ := makeText(t, tube+`flats:
  - {name: loop, points: [[0, 0], [100 mm, 0], [100 mm, 50 mm], [0, 50 mm]], thickness: 4 mm, count: 3}
pads:
  - {name: pad, angle: 0, level: 50 mm, width: 30 mm, height: 40 mm, thickness: 20 mm}
`)
	want := 3*0.1*0.05*0.004*100 + 0.03*0.04*0.02*30
	if got := p.Weight - plain.Weight; math.Abs(got-want) > 1e-9 {
		t.Errorf("three loops and a pad weigh %.6f kg, want %.6f", got, want)
	}
	pad := named(t, p, "pad")
	if pad.Copies != 1 || pad.Thick != 20 || math.Abs(geom.Area(pad.Outline)-1200) > 1e-9 {
		t.Errorf("%d pads of %.0f mm², %.0f mm thick; want one of 1200 and 20", pad.Copies, geom.Area(pad.Outline), pad.Thick)
	}
	front := named(t, p, "front")
	for _, m := range front.Marks {
		if m.Kind == "pad" {
			at := front.Surface.Lift(geom.Centroid(m.Line))
			if math.Abs(at.X) > 0.01 || math.Abs(at.Y-50) > 0.01 || at.Z < 60 {
				t.Errorf("the pad is marked at %v, want it in front at 50 mm", at)
			}
			return
		}
	}
	t.Error("the pad is marked nowhere")
}

func TestFlats_badOnes(t *testing.T) {
	for points, want := range map[string]string{
		"[[0, 0], [30 mm, 30 mm], [30 mm, 0], [0, 30 mm]]": "crosses itself",
		"[[0, 0], [30 mm, 0], [30 mm, 2 mm], [0, 2 mm]]":   "only 2.0 mm across",
		"[[0, 0], [0, 0], [30 mm, 0], [0, 30 mm]]":         "points 1 and 2",
	} {
		_, _, err := Make(context.Background(), []Order{{Name: "piece", Template: "piece", Where: "costume.yaml:3"}},
			fstest.MapFS{"piece.yaml": {Data: []byte(tube + "flats:\n  - {name: fin, points: " + points + "}\n")}}, drawnForm(t), Material{K: 0.5})
		if err == nil || !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), fmt.Sprintf(`costume.yaml:3: piece: piece.yaml:%d: flat part "fin": `, strings.Count(tube, "\n")+2)) {
			t.Errorf("%v, want it to say %q", err, want)
		}
	}
}

// A flange round the front half of a tube of 140 mm outside, 2 mm off it: a
// triangle less half a disc of 72 mm (closed form).
func TestFlats_followAnotherPiece(t *testing.T) {
	flange := strings.Replace(tube, "code: TU", "code: FL", 1) + "flats:\n  - {name: flange, facing: top, y: 50 mm, points: [[100 mm, 0], [0, 140 mm], [-100 mm, 0]], follow: {piece: tube, gap: 2 mm}}\n"
	files := fstest.MapFS{"tube.yaml": {Data: []byte(tube)}, "flange.yaml": {Data: []byte(flange)}}
	orders := []Order{{Name: "flange", Template: "flange"}, {Name: "tube", Template: "tube"}} // the tube is made first all the same
	set, _, err := Make(context.Background(), orders, files, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	part := named(t, &set.Pieces[0], "flange")
	if got, want := geom.Area(part.Outline), 14000-math.Pi*72*72/2; math.Abs(got-want) > 0.005*want {
		t.Errorf("the flange is %.1f mm² large, want %.1f", got, want)
	}
	// A smooth outline of nothing but corners is the same one.
	smooth := strings.NewReplacer("[100 mm, 0]", "[100 mm, 0, corner]", "[0, 140 mm]", "[0, 140 mm, corner]", "[-100 mm, 0]", "[-100 mm, 0, corner]", "facing: top", "smooth: true, facing: top").Replace(flange)
	files["flange.yaml"] = &fstest.MapFile{Data: []byte(smooth)}
	if set, _, err = Make(context.Background(), orders, files, drawnForm(t), Material{K: 0.5}); err != nil {
		t.Fatal(err)
	}
	if got, want := geom.Area(named(t, &set.Pieces[0], "flange").Outline), geom.Area(part.Outline); math.Abs(got-want) > 1e-6*want {
		t.Errorf("smooth, the flange is %.1f mm² large, want %.1f", got, want)
	}
	_, _, err = Make(context.Background(), orders[:1], files, drawnForm(t), Material{K: 0.5})
	if err == nil || !strings.Contains(err.Error(), "it follows the tube, and the costume has none") {
		t.Errorf("without the tube: %v", err)
	}
}

// A template of flat parts alone is a piece: cut as drawn, standing where they say,
// with no word about the body that it does not go round.
func TestFlats_aloneAreAPiece(t *testing.T) {
	text := tube[:strings.Index(tube, "rings:")] + "flats:\n  - {name: plate, count: 2, points: [[0, 0], [30 mm, 0], [30 mm, 40 mm], [0, 40 mm]], facing: left, x: 100 mm}\n"
	p, found := makeText(t, text)
	if len(p.Panels) != 1 || p.Panels[0].Copies != 2 || !p.Free || len(found) != 0 {
		t.Fatalf("%d panels, free %t, %v; want one that is cut twice", len(p.Panels), p.Free, found)
	}
	if want := 2 * 0.03 * 0.04 * 0.01 * 100; math.Abs(p.Weight-want) > 1e-9 {
		t.Errorf("it weighs %g kg, want %g", p.Weight, want)
	}
	for _, v := range p.Panels[0].Surface.Bent {
		if math.Abs(v.X-100) > 5.001 { // in foam of 10 mm
			t.Errorf("a corner stands at %v, want it at x = 100", v)
		}
	}
}

// A strip that lies over an opening is doubted, and the finding says how wide one stays
// clear. Closed form: on a tube of 60 mm inside and 10 mm foam a hole of radius 6 mm at
// level 83 mm ends 11 mm below the upper rim; one seen from the front stays as high.
func TestLayers_overAnOpening(t *testing.T) {
	const slot = "{name: hole, view: front, points: [[-10 mm, 120 mm], [-10 mm, 70 mm], [10 mm, 70 mm], [10 mm, 120 mm]]}"
	for _, c := range []struct{ opening, width, perhaps string }{
		{"{name: hole, view: front, round: {x: 0, y: 83 mm, radius: 6 mm}}", "15 mm", "Make the strip 11 mm at most"},
		{"{name: hole, view: front, round: {x: 0, y: 83 mm, radius: 6 mm}}", "11 mm", ""},
		{"{name: hole, view: front, round: {x: 0, y: 92 mm, radius: 6 mm}}", "12 mm", "Make the strip 0, which leaves it out"},
		{slot, "15 mm", ""}, // the strip ends where the slot cuts the rim
	} {
		_, found := makeText(t, tube+"openings:\n  - "+c.opening+"\nlayers:\n  - {name: trim, along: high, width: "+c.width+", thickness: 4 mm}\n")
		told := ""
		for _, f := range found {
			if strings.Contains(f.Said, `"trim" lies over the opening "hole"`) {
				told += f.Perhaps
			}
		}
		if c.perhaps == "" && told != "" || !strings.HasPrefix(told, c.perhaps) {
			t.Errorf("%s, a strip of %s: told %q, want %q", c.opening, c.width, told, c.perhaps)
		}
	}
}
