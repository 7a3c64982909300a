package pattern_test

import (
	"context"
	"math"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// head is the top of a template that a test writes.
const head = `format: 1
title: Test
about: A test.
code: T
governs: [stature]
thickness: 6 mm
`

// makeText builds one piece of a template, and holds it to what is true of all.
func makeText(t *testing.T, yaml string, orders ...pattern.Order) *pattern.Piece {
	t.Helper()
	p, err := tryText(t, yaml, orders...)
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, p)
	return p
}

func tryText(t *testing.T, yaml string, orders ...pattern.Order) (*pattern.Piece, error) {
	t.Helper()
	o := pattern.Order{Name: "test", Template: "test", Side: body.Left}
	if len(orders) > 0 {
		o = orders[0]
	}
	fsys := fstest.MapFS{"test.yaml": {Data: []byte(head + yaml)}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, fsys, drawBody(t, 3), pattern.Material{K: 0.5})
	if err != nil {
		return nil, err
	}
	return &set.Pieces[0], nil
}

// A box of given inner size: its walls' neutral lines stand k·t outside it,
// with mitred corners, so a wall is as wide as the inside and 2·k·t.
// Source: plane geometry (parallel lines of a square).
func TestMake_freeBox(t *testing.T) {
	p := makeText(t, `frame: {free: true, segment: torso}
rings:
  - {name: low, at: 0, points: [[50 mm, 20 mm], [50 mm, -20 mm], [-50 mm, -20 mm], [-50 mm, 20 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]}
  - {name: high, at: 80 mm, points: [[50 mm, 20 mm], [50 mm, -20 mm], [-50 mm, -20 mm], [-50 mm, 20 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]}
bands:
  - {name: wall, from: low, to: high, seams: {at: [45 deg, 135 deg, 225 deg, 315 deg]}}
base: {kind: plate, name: bottom}
`)
	copies, walls := 0, map[float64]int{46: 2, 106: 2}
	for i := range p.Panels {
		n := p.Panels[i].Copies
		copies += n
		box := geom.Bounds(p.Panels[i].Outline)
		w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
		if p.Panels[i].Name == "bottom" {
			continue
		}
		for want := range walls {
			if math.Abs(w-want) < 1e-6 && math.Abs(h-80) < 1e-6 {
				walls[want] -= n
			}
		}
	}
	if copies != 5 || walls[46] != 0 || walls[106] != 0 {
		t.Errorf("%d panels; of the walls of 46 and 106 x 80 mm, %v are missing", copies, walls)
	}
	if !p.Free || p.Asked != 0 || p.Clearance != 0 {
		t.Errorf("free %v, %.1f of %.1f mm clear; want free, nothing said", p.Free, p.Clearance, p.Asked)
	}
}

// The slant faces of a frustum of a pyramid with square ends of sides a and b,
// h apart, are (a+b)/2 · sqrt(h² + ((a-b)/2)²) large.
// Source: handbook formula of the lateral area of a frustum of a pyramid.
func TestMake_frustumOfAPyramid(t *testing.T) {
	const a, b, h = 200.0, 120.0, 150.0
	p := makeText(t, `frame: {free: true}
rings:
  - {name: low, at: 0, points: [[97 mm, 97 mm], [97 mm, -97 mm], [-97 mm, -97 mm], [-97 mm, 97 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]}
  - {name: high, at: 150 mm, points: [[57 mm, 57 mm], [57 mm, -57 mm], [-57 mm, -57 mm], [-57 mm, 57 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]}
bands:
  - {name: side, from: low, to: high, seams: {at: [45 deg, 135 deg, 225 deg, 315 deg]}}
`)
	want := (a + b) / 2 * math.Hypot(h, (a-b)/2)
	for i := range p.Panels {
		if got := geom.Area(p.Panels[i].Outline); math.Abs(got-want) > 1e-6*want {
			t.Errorf("side %d has %.3f mm², want %.3f", i+1, got, want)
		}
	}
}

// The compound mitres of pyramids: pitch from the flat, mitre and bevel.
// Source: the tables in two table saws' manuals (Craftsman 315.21212, p. 24;
// Ryobi TSS121, p. 32), printed to a hundredth of a degree.
func TestMake_compoundMitres(t *testing.T) {
	for _, c := range []struct {
		n                    int
		pitch, mitre, bevels float64
	}{{4, 45, 35.26, 30}, {6, 15, 29.15, 7.44}, {8, 10, 22.19, 3.81}, {10, 45, 12.94, 12.62}} {
		size := "{width: 300 mm, depth: 300 mm}"
		corners := "["
		for i := range c.n {
			corners += ftoa(360*float64(i)/float64(c.n)) + " deg, "
		}
		corners = strings.TrimSuffix(corners, ", ") + "]"
		rise := 153 * math.Tan(c.pitch*math.Pi/180) // the neutral polygon's inner circle is 153 mm
		p := makeText(t, `frame: {free: true}
rings:
  - {name: low, at: 0, size: `+size+`, corners: `+corners+`}
bands:
  - {name: side, from: low, to: cap, seams: {at: `+corners+`}}
cap: {kind: point, at: `+ftoa(rise)+` mm}
`)
		for i := range p.Panels {
			for _, e := range p.Panels[i].Edges {
				if e.Seam > 0 && math.Abs(e.Bevel.Max*180/math.Pi-c.bevels) > 0.006 {
					t.Errorf("%d sides of %.0f°: a bevel of %.3f°, want %.2f°", c.n, c.pitch, e.Bevel.Max*180/math.Pi, c.bevels)
				}
			}
			// The mitre is the angle between the joint and square to the base.
			edges := p.Panels[i].Edges
			d := r2.Unit(r2.Sub(edges[0].Line[len(edges[0].Line)-1], edges[0].Line[0]))
			j := r2.Unit(r2.Sub(edges[1].Line[len(edges[1].Line)-1], edges[1].Line[0]))
			if got := math.Acos(math.Abs(r2.Cross(d, j))) * 180 / math.Pi; edges[0].Kind != pattern.Rim || math.Abs(got-c.mitre) > 0.006 {
				t.Errorf("%d sides of %.0f°: a mitre of %.3f°, want %.2f°", c.n, c.pitch, got, c.mitre)
			}
		}
	}
}

// A cone's development is a sector with the slant as its radius; its arc is
// the circle of its foot. Source: handbook formula.
func TestMake_freeCone(t *testing.T) {
	p := makeText(t, `frame: {free: true}
rings:
  - {name: low, at: 0, size: {width: 114 mm, depth: 114 mm}}
bands:
  - {name: cone, from: low, to: cap, seams: {at: [180 deg]}}
cap: {kind: point, at: 80 mm}
`)
	if len(p.Panels) != 1 || len(p.Seams) != 1 {
		t.Fatalf("%d panels and %d seams; want one of each", len(p.Panels), len(p.Seams))
	}
	for _, e := range p.Panels[0].Edges {
		want := 100.0
		if e.Kind == pattern.Rim {
			want = 2 * math.Pi * 60
		}
		// Chords of 3 mm on a radius of 60 mm are short by (3/60)²/24 of the arc.
		if math.Abs(e.Length-want) > 0.06 {
			t.Errorf("an edge of the cone is %.4f mm, want %.4f", e.Length, want)
		}
	}
}

// Gores from a drawn ring to a point run on a quarter of an ellipse.
// Source: a quarter of a circle of radius r is r·π/2 long.
func TestMake_freeGores(t *testing.T) {
	p := makeText(t, `frame: {free: true}
mirror: true
rings:
  - {name: rim, at: 0, size: {width: 194 mm, depth: 194 mm}}
bands:
  - {name: gore, from: rim, to: cap, bend: along, seams: {count: 8, start: 22.5 deg}}
cap: {kind: point, at: 100 mm}
`)
	for _, s := range p.Seams {
		r := 100 / math.Cos(math.Pi/8)
		a, b := r, 100.0
		// Source: Ramanujan's second approximation of the circumference of an ellipse, to 1e-9 here.
		h := (a - b) * (a - b) / ((a + b) * (a + b))
		want := math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h))) / 4
		if math.Abs(s.Length-want) > 0.02 {
			t.Errorf("seam %d is %.4f mm long, want %.4f", s.Number, s.Length, want)
		}
	}
}

// A drawn ring may be hollow, and its plate with it.
func TestMake_hollowPrism(t *testing.T) {
	ell := "points: [[60 mm, 60 mm], [60 mm, 0], [0, 0], [0, -60 mm], [-60 mm, -60 mm], [-60 mm, 60 mm]], corners: [30 deg, 60 deg, 90 deg, 150 deg, 210 deg, 330 deg]"
	p := makeText(t, `frame: {free: true}
rings:
  - {name: low, at: 0, `+ell+`}
  - {name: high, at: 40 mm, `+ell+`}
bands:
  - {name: wall, from: low, to: high, seams: {at: [30 deg, 60 deg, 90 deg, 150 deg, 210 deg, 330 deg]}}
base: {kind: plate, name: bottom}
cap: {kind: plate, name: lid}
`)
	// Moved out by 3 mm, an L of three squares of 60 mm.
	want := 126.0*126 - 60*60
	for i := range p.Panels {
		if n := p.Panels[i].Name; n == "lid" || n == "bottom" {
			if got := geom.Area(p.Panels[i].Outline); math.Abs(got-want) > 1e-6*want {
				t.Errorf("the %s has %.2f mm², want %.2f", n, got, want)
			}
		}
	}
}

func TestMake_drawnRingsThatCannotBe(t *testing.T) {
	rings := func(a, b string) string {
		return "frame: {free: true}\nrings:\n  - {name: low, at: 0, " + a + "}\n  - {name: high, at: 50 mm, " + b + "}\nbands:\n  - {name: wall, from: low, to: high, seams: {at: [0 deg]}}\n"
	}
	square := "points: [[20 mm, 20 mm], [20 mm, -20 mm], [-20 mm, -20 mm], [-20 mm, 20 mm]]"
	round := "size: {width: 40 mm, depth: 40 mm}"
	for _, c := range []struct{ yaml, says string }{
		{rings(square, "points: [[20 mm, 20 mm], [-20 mm, 20 mm], [-20 mm, -20 mm], [20 mm, -20 mm]]"), "run the wrong way round"},
		{rings(square, "points: [[20 mm, 20 mm], [-20 mm, -20 mm], [20 mm, -20 mm], [-20 mm, 20 mm]]"), "crosses itself"},
		{rings(square, "points: [[20 mm, 20 mm], [20 mm, 20 mm], [-20 mm, -20 mm], [-20 mm, 20 mm]]"), "points 1 and 2 of ring \"high\" are one place"},
		{rings(round, "size: {width: 0 mm, depth: 20 mm}"), "would be 0 mm wide"},
		{rings(round, "size: {width: 20 mm, depth: 20 mm, full: 9}"), "full: 9"},
		{strings.Replace(rings(square, square), "low, to: high", "high, to: cap", 1) + "cap: {kind: point, at: 40 mm}\n", "not above ring \"high\""},
	} {
		if _, err := tryText(t, c.yaml); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("got %v; want an error that says %q", err, c.says)
		}
	}
}

func ftoa(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// On a body a drawn ring is pushed out where it would come nearer than asked,
// and stays as it was drawn where it does not; a formula sizes it.
func TestMake_drawnRingsOnABody(t *testing.T) {
	on := func(low string) string {
		return `ease: 6 mm
frame: {segment: forearm}
rings:
  - {name: low, at: lower_forearm, ` + low + `}
  - {name: high, at: mid_forearm, ` + low + `}
bands:
  - {name: wall, from: low, to: high, seams: {at: [45 deg, -135 deg]}}
`
	}
	for _, low := range []string{
		"size: {width: 0.5 * wrist_girth, depth: 30 mm}",
		"size: {width: 40 mm, depth: 200 mm}, corners: [45 deg, 135 deg, 225 deg, 315 deg]",
		"points: [[20 mm, 60 mm], [20 mm, -20 mm], [-20 mm, -20 mm], [-20 mm, 60 mm]], corners: [45 deg, 135 deg, 225 deg, 315 deg]",
		"points: [[20 mm, 60 mm], [20 mm, 0 mm], [20 mm, -20 mm], [-20 mm, -20 mm], [-20 mm, 60 mm]], corners: [45 deg, 90 deg, 135 deg, 225 deg, 315 deg]",
	} {
		p := makeText(t, on(low))
		if p.Clearance < 0.98*p.Asked || p.PushedOut == 0 {
			t.Errorf("%s: %.2f mm clear of %.1f, pushed out by %.2f", low, p.Clearance, p.Asked, p.PushedOut)
		}
	}
	wide := makeText(t, on("size: {width: 300 mm, depth: 300 mm}"))
	length := 0.0
	for _, e := range wide.Panels[0].Edges {
		if e.Kind == pattern.Rim {
			length = max(length, e.Length)
		}
	}
	if want := math.Pi * 153; math.Abs(length-want) > 0.05 || wide.PushedOut != 0 {
		t.Errorf("half of a wide ring is %.3f mm, want %.3f; it was pushed out by %.2f", length, want, wide.PushedOut)
	}
	for low, says := range map[string]string{
		"size: {width: 20 mm, depth: 20 mm, x: 500 mm}": `ring "low": it is drawn`,
		"points: [[20 mm, 60 mm], [0 mm, 0 mm], [20 mm, -20 mm], [-20 mm, -20 mm], [-20 mm, 60 mm]], corners: [45 deg, 90 deg, 135 deg, 225 deg, 315 deg]": "drawn hollow",
	} {
		if _, err := tryText(t, on(low)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("got %v; want an error that says %q", err, says)
		}
	}
}

// Round an axis that runs across, a drawn ring's x is up and its z forward; the
// piece is its own mirror image end for end.
func TestMake_drawnRingsAcross(t *testing.T) {
	for _, frame := range []string{"free: true, segment: head, axis: across", "segment: head, axis: across"} {
		p := makeText(t, `mirror: true
ease: 5 mm
frame: {`+frame+`}
rings:
  - {name: right, at: -60 mm, size: {width: 290 mm, depth: 340 mm, x: 40 mm}}
  - {name: left, at: 60 mm, size: {width: 290 mm, depth: 340 mm, x: 40 mm}}
bands:
  - {name: arch, from: right, to: left, seams: {at: [0 deg, 180 deg]}}
`)
		if !p.Free { // it goes round head and neck, wider than it is drawn
			if p.Clearance < 0.98*p.Asked || p.Asked != 5 || p.PushedOut == 0 {
				t.Errorf("%s: %.2f mm clear of %.1f, pushed out by %.2f", frame, p.Clearance, p.Asked, p.PushedOut)
			}
			continue
		}
		low, high, fore := math.Inf(1), math.Inf(-1), math.Inf(-1)
		for i := range p.Panels {
			for _, v := range p.Panels[i].Surface.Bent {
				low, high, fore = min(low, v.Y), max(high, v.Y), max(fore, v.Z)
			}
		}
		if math.Abs(low-(40-148)) > 0.05 || math.Abs(high-(40+148)) > 0.05 || math.Abs(fore-173) > 0.05 {
			t.Errorf("%s: it reaches from %.2f to %.2f mm up and %.2f forward; want -108, 188 and 173", frame, low, high, fore)
		}
	}
}

// Gores of a piece that is its own mirror image may stand on a plate: the middle
// line divides the ring inside of one of them.
func TestMake_goresOnAPlate(t *testing.T) {
	p := makeText(t, `mirror: true
frame: {free: true}
rings:
  - {name: rim, at: 0, size: {width: 194 mm, depth: 194 mm}}
bands:
  - {name: gore, from: rim, to: cap, bend: along, seams: {count: 8, start: 22.5 deg}}
cap: {kind: point, at: 100 mm}
base: {kind: plate, name: floor}
`)
	for i := range p.Panels {
		if p.Panels[i].Name == "floor" {
			if n, want := geom.Perimeter(p.Panels[i].Outline), 16*100*math.Tan(math.Pi/8); math.Abs(n-want) > 0.01 {
				t.Errorf("the floor is %.3f mm round, want %.3f", n, want)
			}
		}
	}
}
