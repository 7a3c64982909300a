package pattern

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// anchorAt is an anchor at a distance d from the y axis, at an angle from the z
// axis.
func anchorAt(d, angle float64) anchor {
	s, c := math.Sincos(angle)
	middle := r3.Vec{X: d * s, Y: 10, Z: d * c}
	along, up := r3.Vec{X: c, Z: -s}, r3.Vec{Y: 1}
	p := &Piece{Frame: geom.Identity(), Panels: []Panel{{}}}
	surf := &p.Panels[0].Surface
	surf.Flat = []r2.Vec{{X: -5, Y: -5}, {X: 5, Y: -5}, {X: 0, Y: 5}}
	for _, q := range surf.Flat {
		surf.Bent = append(surf.Bent, r3.Add(middle, r3.Add(r3.Scale(q.X, along), r3.Scale(q.Y, up))))
	}
	surf.T = [][3]int{{0, 1, 2}}
	return anchor{piece: p}
}

// A band from one side of a cylinder to the other, drawn over its front, is as
// long as two tangents and the arc between where they touch (closed form): from
// points at a distance d from the axis of a cylinder of radius r,
// 2·√(d²-r²) + r·(angle between the points - 2·acos(r/d)).
func tautRound(r, d, between float64) float64 {
	return 2*math.Sqrt(d*d-r*r) + r*(between-2*math.Acos(r/d))
}

func TestPathOver_aCylinder(t *testing.T) {
	const r, d, half = 50.0, 60.0, 70 * math.Pi / 180
	want := tautRound(r, d, 2*half)
	if got := pathOver(anchorAt(d, -half), anchorAt(d, half), lathe(-60, 60, func(float64) float64 { return r })); math.Abs(got-want) > 0.05 {
		t.Errorf("the path is %.3f mm long, want %.3f", got, want)
	}
}

// A strap goes round a limb on the side that it is told, less or more than half
// way round (the same closed form), whatever else stands beside the limb.
func TestPathRound_aTube(t *testing.T) {
	const r, d = 50.0, 62.0
	limb := lathe(-60, 60, func(float64) float64 { return r })
	other := lathe(-60, 60, func(float64) float64 { return 80 })
	for i := range other.V {
		other.V[i].Z += 170
	}
	limb.Append(other)
	for _, half := range []float64{50, 89, 110, 128} {
		half *= math.Pi / 180
		want := tautRound(r, d, 2*half)
		got := pathRound(limb, anchorAt(d, -half), anchorAt(d, half), r3.Vec{Y: 10}, r3.Vec{Z: 1})
		if math.Abs(got-want) > 0.08 {
			t.Errorf("from %.0f degrees on either side the path is %.3f mm long, want %.3f", half*180/math.Pi, got, want)
		}
	}
}

const halfSleeve = `format: 1
title: Half sleeve
about: It covers the outer side of the arm.
code: HS
governs: [wrist girth]
thickness: 4 mm
ease: 10 mm
frame: {segment: forearm}
span: {from: 0 deg, to: 180 deg}
rings:
  - {name: wrist rim, at: wrist + 30 mm}
  - {name: elbow rim, at: elbow - 60 mm}
bands:
  - {name: shell, from: wrist rim, to: elbow rim}
fastenings:
  - {kind: strap and buckle, name: strap, angle: 20 deg, level: wrist + 80 mm, width: 20 mm, length: 50 mm}
`

// A strap with a second place is as long as its way round the open side of the
// limb and what the trade adds, and both its ends are marked; of one with a single
// place, whatever its length says, no length is known. A pair has two of each.
func TestPlacedFastening_needsTwoPlaces(t *testing.T) {
	made := func(text string) *Piece {
		form := drawnForm(t)
		set, _, err := Make(context.Background(), []Order{{Name: "sleeve", Template: "sleeve"}}, fstest.MapFS{"sleeve.yaml": {Data: []byte(text)}}, form, Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		if len(set.Pieces) != 1 || set.Pieces[0].Copies != 2 {
			t.Fatalf("%d pieces, want a pair of one template", len(set.Pieces))
		}
		return &set.Pieces[0]
	}
	p := made(halfSleeve)
	if len(p.Straps) != 1 || p.Straps[0].Length != 0 || p.Straps[0].To != "" || p.Straps[0].Count != 2 {
		t.Errorf("with one place: %+v; want two of a length that is not known", p.Straps)
	}
	p = made(strings.Replace(halfSleeve, "length: 50 mm", "to-angle: 160 deg, to-level: wrist + 80 mm", 1))
	if len(p.Straps) != 1 {
		t.Fatalf("%+v, want one kind of strap", p.Straps)
	}
	s := p.Straps[0]
	part, _ := drawnForm(t).Part(body.Forearm, body.Left)
	level := 0.0
	for _, at := range part.Stations {
		if at.Name == "wrist" {
			level = at.Level + 80
		}
	}
	girth := part.Section(level).Girth()
	if s.Count != 2 || s.Path < 0.55*girth || s.Path > 0.95*girth || math.Abs(s.Length-(s.Path+45+80)) > 1e-9 {
		t.Errorf("%+v; want two, each rather more than half round an arm of %.0f mm", s, girth)
	}
	said := map[string]int{}
	for _, m := range p.Panels[0].Marks {
		said[m.Text]++
		if m.Kind != "fastening" {
			continue
		}
		if long, wide := geom.Dist(m.Line[0], m.Line[1]), geom.Dist(m.Line[1], m.Line[2]); math.Abs(long-45) > 1e-6 || math.Abs(wide-20) > 1e-6 || math.Abs(geom.Length(m.Axis)-45) > 1e-6 {
			t.Errorf("%q is %.1f by %.1f mm, want its strap's 20 and 25 more, and 20", m.Text, long, wide)
		}
	}
	if said["strap 1, strap, inside"] != 1 || said["strap 1, buckle, inside"] != 1 {
		t.Errorf("the marks say %v, want either end once", said)
	}
}

const shellOf = `format: 1
title: TITLE
about: Half of a harness.
code: CODE
governs: [chest girth]
thickness: 6 mm
ease: 10 mm
mirror: true
frame: {segment: torso}
span: {from: FROM, to: TO}
rings:
  - {name: low, at: natural_waist}
  - {name: high, at: chest}
bands:
  - {name: shell, from: low, to: high}
`

func harness(front, back string) fstest.MapFS {
	of := func(title, code, from, to, more string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(strings.NewReplacer("TITLE", title, "CODE", code, "FROM", from, "TO", to).Replace(shellOf) + more)}
	}
	return fstest.MapFS{"front.yaml": of("Front", "FR", "-80 deg", "80 deg", front), "back.yaml": of("Back", "BA", "100 deg", "260 deg", back)}
}

const sideStrap = "fastenings:\n  - {kind: strap and buckle, name: side strap, angle: 75 deg, level: natural_waist + 60 mm, width: 38 mm, mirror: true, to: back, to-angle: 105 deg, to-level: natural_waist + 60 mm}\n"

// A strap from a piece to another is marked on both with one number, on both
// sides, its patches clear of the rims; its length is the path and what the trade
// adds.
func TestFasten_fromPieceToPiece(t *testing.T) {
	orders := []Order{{Name: "front", Template: "front"}, {Name: "back", Template: "back"}}
	set, found, err := Make(context.Background(), orders, harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"side strap 1, strap, inside, to the back", "side strap 1, buckle, inside, of the front"} {
		p := &set.Pieces[i]
		checkPiece(t, p)
		marks := 0
		for _, panel := range p.Panels {
			for _, m := range panel.Marks {
				if m.Kind != "fastening" || m.Text != want {
					t.Errorf("%s says %q, want %q", p.Name, m.Text, want)
				}
				marks += panel.Copies
				for _, e := range panel.Edges {
					for _, q := range m.Line {
						d := math.Inf(1)
						for i := 0; i+1 < len(e.Line); i++ {
							d = min(d, geom.DistToSegment(q, e.Line[i], e.Line[i+1]))
						}
						if e.Kind != Butt && d < fasteningInset-0.5 {
							t.Errorf("%s: the patch of %q comes within %.1f mm of a rim", p.Name, m.Text, d)
						}
					}
				}
			}
		}
		if marks != 2 {
			t.Errorf("%s has %d marks, want 2", p.Name, marks)
		}
	}
	if len(set.Pieces[0].Straps) != 1 || len(set.Pieces[1].Straps) != 0 {
		t.Fatalf("straps %v and %v, want one kind, of the front", set.Pieces[0].Straps, set.Pieces[1].Straps)
	}
	s := set.Pieces[0].Straps[0]
	if s.Hidden || s.Count != 2 || s.Other != "back" || s.Width != 38 || math.Abs(s.Length-(s.Path+63+80)) > 1e-9 || s.Path < 60 || s.Path > 300 {
		t.Errorf("the strap is %+v", s)
	}
	for _, f := range found {
		if strings.Contains(f.Said, "goes to") {
			t.Error(f)
		}
	}
	alone, found, err := Make(context.Background(), orders[:1], harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.ContainsFunc(found, func(f report.Finding) bool { return strings.Contains(f.Said, "goes to the back") }) {
		t.Fatalf("without the back: %v, %v", found, err)
	}
	if got := alone.Pieces[0].Straps; len(got) != 1 || got[0].To != "" || got[0].Length != 0 || got[0].Count != 2 || got[0].From != s.From {
		t.Errorf("without the back: straps %+v, want two of which nothing is said of how long they are", got)
	}
}

// A strap that finds no panel on the other piece goes to the nearest place that has
// one; where there is none near, it is listed all the same, and doubted.
func TestFasten_toTheNearestPlace(t *testing.T) {
	orders := []Order{{Name: "front", Template: "front"}, {Name: "back", Template: "back"}}
	for to, near := range map[string]bool{"chest + 25 mm": true, "chest + 200 mm": false} {
		text := strings.Replace(sideStrap, "to-level: natural_waist + 60 mm", "to-level: "+to, 1)
		set, found, err := Make(context.Background(), orders, harness(text, ""), drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		straps := set.Pieces[0].Straps
		if len(straps) != 1 || straps[0].Count != 2 || (straps[0].To != "") != near || (straps[0].Length > 0) != near {
			t.Errorf("to %s: straps %+v", to, straps)
		}
		if doubted := slices.ContainsFunc(found, func(f report.Finding) bool { return strings.Contains(f.Said, "has no panel") }); doubted == near {
			t.Errorf("to %s: %v", to, found)
		}
		for i := range set.Pieces {
			for _, m := range set.Pieces[i].Panels[0].Marks {
				if on := set.Pieces[i].Panels[0].onFoam(m.Line); m.Kind == "fastening" && (on < 1 || len(m.Axis) != 2) {
					t.Errorf("to %s: %q lies on the foam by %.2f", to, m.Text, on)
				}
			}
		}
	}
}

// Where nothing else speaks, it is the legs, the trunk, the arms, the head, the hands,
// and then what is carried.
func TestDress_byWhereItIsWorn(t *testing.T) {
	set := &Set{Pieces: []Piece{{Name: "shield"}, {Name: "gauntlet", Segment: body.Hand}, {Name: "helmet", Segment: body.Head},
		{Name: "couter", Joint: "elbow"}, {Name: "belt", Segment: body.Torso}, {Name: "plate", Segment: body.Torso}, {Name: "greave", Segment: body.Shank}}}
	got, err := set.dress()
	if err != nil || !slices.Equal(got, []string{"greave", "belt", "plate", "couter", "helmet", "gauntlet", "shield"}) {
		t.Errorf("%v, %v", got, err)
	}
}

// What comes after is put on last, whatever the costume's order; what goes round
// names both files.
func TestDress(t *testing.T) {
	orders := []Order{{Name: "front", Template: "front"}, {Name: "back", Template: "back"}}
	set, _, err := Make(context.Background(), orders, harness("after: [back]\n", ""), drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.Equal(set.Dressing, []string{"back", "front"}) {
		t.Errorf("%v, %v; want the back first", set, err)
	}
	set, _, err = Make(context.Background(), orders, harness(sideStrap, ""), drawnForm(t), Material{K: 0.5})
	if err != nil || !slices.Equal(set.Dressing, []string{"back", "front"}) {
		t.Errorf("%v, %v; want the back first, as the front is strapped to it", set.Dressing, err)
	}
	_, _, err = Make(context.Background(), orders, harness("after: [back]\n", "after: [front]\n"), drawnForm(t), Material{K: 0.5})
	if err == nil || !strings.Contains(err.Error(), "front.yaml is put on after back.yaml is put on after front.yaml") {
		t.Errorf("%v; want both files named", err)
	}
}

// What goes round the neck must pull open; elsewhere a buckle is as good as any.
func TestFasten_roundTheNeckItPullsOpen(t *testing.T) {
	for segment, wants := range map[string]bool{"neck": true, "torso": false} {
		text := strings.NewReplacer("waist girth", "neck girth", "{free: true}", "{free: true, segment: "+segment+"}").Replace(tube)
		_, found := makeText(t, text+"fastenings:\n  - {kind: strap and buckle, angle: 0 deg, level: 50 mm}\n")
		if got := slices.ContainsFunc(found, func(f report.Finding) bool { return strings.Contains(f.Said, "open by a pull") }); got != wants {
			t.Errorf("%s: %v", segment, found)
		}
	}
}

// A band behind a piece round something is as long as the convex outline of its two
// anchors and of a circle on the line between them, without that line: drawn with
// corners here, and in closed form where it is half a circle on two straight sides.
func TestPathBehind(t *testing.T) {
	for _, c := range []struct{ apart, girth float64 }{{0, 200}, {60, 300}, {110, 300}, {250, 300}} {
		r := c.girth / (2 * math.Pi)
		pts := []r2.Vec{{X: -c.apart / 2}, {X: c.apart / 2}}
		for i := range 3600 {
			a := 2 * math.Pi * float64(i) / 3600
			pts = append(pts, r2.Vec{X: r * math.Sin(a), Y: r - r*math.Cos(a)})
		}
		if got, want := pathBehind(c.apart, c.girth), geom.Perimeter(geom.Hull(pts))-c.apart; math.Abs(got-want) > 0.01 {
			t.Errorf("anchors %g mm apart round %g mm: %.3f mm, want %.3f", c.apart, c.girth, got, want)
		}
	}
	r := 40.0
	if got, want := pathBehind(2*r, 2*math.Pi*r), (math.Pi+2)*r; math.Abs(got-want) > 1e-9 {
		t.Errorf("half a circle on two sides of its radius is %.4f mm, want %.4f", got, want)
	}
}

// Of two halves cut from one template, a strap that is asked for on one side is
// counted once, and its marks say on which half they are; with mirror it is
// counted twice, and they say nothing.
func TestFasten_onOneOfTwoHalves(t *testing.T) {
	halves := strings.Replace(tube, "at: [-90 deg, 90 deg], panels: [front, back]", "at: [0 deg, 180 deg]", 1)
	for _, c := range []struct {
		angle, to string
		mirror    string
		count     int
		said      string
	}{
		{"60 deg", "120 deg", "", 1, "turned over"},
		{"-60 deg", "-120 deg", "", 1, "turned over"},
		{"60 deg", "120 deg", ", mirror: true", 2, ""},
	} {
		p, _ := makeText(t, halves+"fastenings:\n  - {kind: elastic, angle: "+c.angle+", level: 50 mm, to-angle: "+c.to+", to-level: 50 mm, girth: 200 mm"+c.mirror+"}\n")
		if len(p.Panels) != 1 || len(p.Straps) != 1 || p.Straps[0].Count != c.count {
			t.Fatalf("%s to %s%s: %d panels, straps %+v; want one panel and %d of one strap", c.angle, c.to, c.mirror, len(p.Panels), p.Straps, c.count)
		}
		// The anchors stand 60 degrees apart on the neutral circle, so their chord is its radius.
		if want := pathBehind(65, 200); math.Abs(p.Straps[0].Path-want) > 0.2 {
			t.Errorf("%s to %s: a path of %.2f mm, want %.2f", c.angle, c.to, p.Straps[0].Path, want)
		}
		for _, m := range p.Panels[0].Marks {
			if m.Kind == "fastening" && strings.Contains(m.Text, "only on the copy") != (c.said != "") {
				t.Errorf("%s to %s%s: a mark says %q", c.angle, c.to, c.mirror, m.Text)
			}
		}
	}
}

// Round a cylinder a strap goes round it: along x in the flat panel of an anchor that
// is turned about the y axis, to the other anchor on the nearer side, or on the side that
// it is said to bulge to; one that runs along the axis goes along y.
func TestAlong(t *testing.T) {
	for _, half := range []float64{30, 76, 90, 120} {
		a, z := anchorAt(60, -half*math.Pi/180), anchorAt(60, half*math.Pi/180)
		front, nearer := r3.Vec{Z: 1}, 1.0
		if half > 90 {
			nearer = -1
		}
		for _, axis := range []r3.Vec{{Y: 1}, {Y: -1}} {
			if got := a.alongTo(z, axis, r3.Vec{}); half != 90 && got.X*nearer < 1-1e-9 {
				t.Errorf("%g degrees off its middle the strap leaves along %v, want x %g", half, got, nearer)
			}
			if got := a.alongTo(z, axis, front); got.X < 1-1e-9 {
				t.Errorf("over the front, %g degrees off its middle, it leaves along %v, want x", half, got)
			}
			if got := a.alongTo(z, axis, r3.Scale(-1, front)); got.X > -1+1e-9 {
				t.Errorf("round the back, %g degrees off its middle, it leaves along %v, want -x", half, got)
			}
		}
		if got := a.alongAxis(r3.Vec{Y: 1}); math.Abs(got.Y) < 1-1e-9 {
			t.Errorf("along the axis, at %g degrees: %v, want y", half, got)
		}
	}
}
