package pattern

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// lathe is a closed surface turned about the y axis: radius(level) between two
// levels, closed by its top point if the radius ends at nothing.
func lathe(low, high float64, radius func(level float64) float64) geom.Mesh {
	const rows, n = 120, 240
	var m geom.Mesh
	for i := range rows + 1 {
		y := low + (high-low)*math.Sin(float64(i)/rows*math.Pi/2)
		for j := range n {
			s, c := math.Sincos(2 * math.Pi * float64(j) / n)
			m.V = append(m.V, r3.Vec{X: radius(y) * s, Y: y, Z: radius(y) * c})
		}
	}
	for i := range rows {
		for j := range n {
			a, b := i*n+j, i*n+(j+1)%n
			m.T = append(m.T, [3]int{a, b, b + n}, [3]int{a, b + n, a + n})
		}
	}
	return m
}

func build(t *testing.T, p plan, l *limit, cuts ...cutout) *Piece {
	t.Helper()
	if p.fold == nil {
		p.fold = func(float64, string) string { return "grooved inside" }
	}
	s, err := newShell(p, l)
	if err != nil {
		t.Fatal(err)
	}
	c, err := s.cut((&builder{thickness: 6, k: 0.5}).hinge)
	if err != nil {
		t.Fatal(err)
	}
	m := &blanks{}
	m.add(c)
	for i := range m.panels {
		m.panels[i].toPiece(geom.Identity())
	}
	parts, err := m.trimAll(cuts)
	if err != nil {
		t.Fatal(err)
	}
	a := assembly{blanks: m, parts: parts, foam: foam{thickness: 6, k: 0.5, code: "T"}}
	out := &Piece{Name: "test", Copies: 1}
	if out.Panels, out.Seams, err = a.assemble(); err != nil {
		t.Fatal(err)
	}
	checkPiece(t, out)
	return out
}

func plain(d float64) func(n, p r3.Vec) float64 { return func(r3.Vec, r3.Vec) float64 { return d } }

// A cone's development is a sector of the angle 360°·(R1-R2)/slant.
// Source: handbook formula; the ducts of 5 and 8 in, 4 in apart, give 126.4°.
func TestMake_coneIsItsSector(t *testing.T) {
	const in = 25.4
	r := func(y float64) float64 { return in * (4 - 1.5*y/(4*in)) }
	l := newLimit(lathe(-10, 4*in+10, r), plain(0), false)
	p := build(t, plan{
		rings: []ringPlan{{name: "low"}, {name: "high", level: 4 * in, section: 4 * in}},
		bands: []bandPlan{{name: "cone", from: 0, to: 1, seams: []float64{math.Pi}}},
	}, l)
	if len(p.Panels) != 1 || len(p.Seams) != 1 {
		t.Fatalf("%d panels and %d seams; want one of each", len(p.Panels), len(p.Seams))
	}
	long := p.Panels[0].Edges[0].Length
	angle := long / (11.392004993756707 * in) * 180 / math.Pi
	if math.Abs(angle-126.40443897182102) > 0.05 {
		t.Errorf("the outer arc is %.3f mm, an angle of %.3f°; want 126.404°", long, angle)
	}
}

func TestMake_goresMeetInAPoint(t *testing.T) {
	const r = 100.0
	l := newLimit(lathe(0, r, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) }), plain(0), false)
	n := 8
	var seams []float64
	for i := range n {
		seams = append(seams, 2*math.Pi*float64(i)/float64(n))
	}
	p := build(t, plan{
		rings:  []ringPlan{{name: "rim"}},
		bands:  []bandPlan{{name: "gore", from: 0, to: 0, along: true, seams: seams}},
		capped: "point",
	}, l)
	if p.Panels[0].Copies != n || len(p.Panels) != 1 { // all alike
		t.Fatalf("%d panels, %d copies of the first; want one, cut %d times", len(p.Panels), p.Panels[0].Copies, n)
	}
	// A gore whose middle lies on the sphere: its centre line is a quarter
	// circle, its half width at the rim r·tan(π/n).
	e := p.Panels[0].Edges[0]
	if want := 2 * r * math.Tan(math.Pi/float64(n)); math.Abs(e.Length-want) > 0.05 {
		t.Errorf("the rim of a gore is %.3f mm, want %.3f", e.Length, want)
	}
}

// A flat-topped shell with corners, folds, a plate, an opening over the front
// crease and across two seams, and holes: what a helm asks for.
func TestMake_helmWithOpenings(t *testing.T) {
	egg := func(y float64) float64 { return 90 * math.Sqrt(max(1-y*y/(140*140), 0)) }
	l := newLimit(lathe(-139, 139.9, egg), plain(15), true)
	l.rememberAbove(-120)
	deg := func(d float64) float64 { return d * math.Pi / 180 }
	var corners []float64
	for _, d := range []float64{0, 50, 90, 135, 180, 225, 270, 310} {
		corners = append(corners, deg(d))
	}
	slot := newCutout("eye slot", "front", []r2.Vec{{X: -95, Y: 20}, {X: 95, Y: 20}, {X: 95, Y: 32}, {X: -95, Y: 32}})
	hole := newCutout("hole", "front", circle(r2.Vec{X: 40, Y: -40}, 4))
	p := build(t, plan{
		rings: []ringPlan{
			{name: "neck", level: -120, section: -120, corners: corners},
			{name: "brow", level: 40, section: 40, corners: corners},
			{name: "top", level: 156, section: 90, corners: corners},
		},
		bands: []bandPlan{
			{name: "wall", from: 0, to: 1, seams: []float64{deg(50), deg(310)}, panels: []string{"back", "front"}},
			{name: "crown", from: 1, to: 2, seams: []float64{deg(50), deg(310)}},
		},
		capped: "plate", mirror: true, paired: true,
	}, l, slot, hole, hole.reflected())
	openings, holes := 0, 0
	for _, panel := range p.Panels {
		holes += len(panel.Holes)
		for _, e := range panel.Edges {
			if e.Kind == Opening {
				openings++
			}
		}
	}
	// The slot runs past both front seams: it cuts the front in two and takes a
	// bite out of either side of the back.
	if len(p.Panels) != 6 || openings != 4 || holes != 2 {
		t.Errorf("%d panels, %d edges of openings and %d holes; want 6, 4 and 2", len(p.Panels), openings, holes)
	}
}

// An opening whose curve turns exactly on a seam, or on a fold: each crossing
// is one place, found from both sides.
func TestMake_openingTurnsOnASeam(t *testing.T) {
	const r = 100.0
	dome := lathe(-60, r, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) })
	kite := newCutout("kite", "front", []r2.Vec{{X: 0, Y: -20}, {X: 30, Y: 10}, {X: 0, Y: 40}, {X: -30, Y: 10}})
	var seams []float64
	for i := range 8 {
		seams = append(seams, 2*math.Pi*float64(i)/8)
	}
	for _, at := range []float64{0, math.Pi / 8} { // on a seam, and in the middle of a gore
		var turned []float64
		for _, s := range seams {
			turned = append(turned, s+at)
		}
		p := build(t, plan{
			rings:  []ringPlan{{name: "rim", level: -50, section: -50}},
			bands:  []bandPlan{{name: "gore", along: true, seams: turned}},
			capped: "point", mirror: true,
		}, newLimit(dome, plain(5), true), kite)
		removed := 0.0
		for _, panel := range p.Panels {
			for _, h := range panel.Holes {
				removed -= geom.Area(h)
			}
			for _, e := range panel.Edges {
				if e.Kind == Opening {
					removed += geom.Length(e.Line)
				}
			}
		}
		if removed == 0 {
			t.Errorf("seams turned by %.3f: the kite took nothing away", at)
		}
	}
}

// Moved out by d, a smooth ring grows by 2π·d and a cornered one by
// 2·Σtan(fold/2)·d. Source: plane geometry (parallel curves, mitred polygons).
func TestShell_ringsGrowWithTheirOffset(t *testing.T) {
	tube := lathe(-50, 50, func(float64) float64 { return 60 })
	const d = 4.0
	girth := func(out float64, corners []float64) float64 {
		s, err := newShell(plan{
			rings: []ringPlan{{name: "low", level: -20, section: -20, corners: corners}, {name: "high", level: 20, section: 20, corners: corners}},
			bands: []bandPlan{{name: "tube", from: 0, to: 1, seams: []float64{0}}},
		}, newLimit(tube, plain(out), false))
		if err != nil {
			t.Fatal(err)
		}
		return geom.Perimeter(s.line(s.rings[0]))
	}
	if grown := girth(d, nil) - girth(0, nil); math.Abs(grown-2*math.Pi*d) > 0.01 {
		t.Errorf("a smooth ring grew by %.4f mm, want %.4f", grown, 2*math.Pi*d)
	}
	for _, n := range []int{4, 6, 9} {
		var corners []float64
		for i := range n {
			corners = append(corners, 2*math.Pi*float64(i)/float64(n))
		}
		want := 2 * float64(n) * math.Tan(math.Pi/float64(n)) * d
		if grown := girth(d, corners) - girth(0, corners); math.Abs(grown-want) > 0.01 {
			t.Errorf("a ring with %d corners grew by %.4f mm, want %.4f", n, grown, want)
		}
	}
}

// Bevel is half the fold: 180°/n at the joints of a prism of n flat sides.
// Source: the common table of polygon joints (4 → 45°, 6 → 30°, 8 → 22.5°).
func TestMake_prismBevels(t *testing.T) {
	tube := lathe(-50, 50, func(float64) float64 { return 80 })
	for n, want := range map[int]float64{4: 45, 6: 30, 8: 22.5} {
		var corners []float64
		for i := range n {
			corners = append(corners, 2*math.Pi*float64(i)/float64(n))
		}
		p := build(t, plan{
			rings: []ringPlan{{name: "low", level: -20, section: -20, corners: corners}, {name: "high", level: 20, section: 20, corners: corners}},
			bands: []bandPlan{{name: "side", from: 0, to: 1, seams: corners}},
		}, newLimit(tube, plain(0), false))
		for _, e := range p.Panels[0].Edges {
			if e.Seam > 0 && math.Abs(e.Bevel.Max*180/math.Pi-want) > 1e-6 {
				t.Errorf("%d sides: a bevel of %.4f°, want %.1f°", n, e.Bevel.Max*180/math.Pi, want)
			}
			if e.Seam > 0 && !e.Bevel.Undercut {
				t.Errorf("%d sides: the outer face is cut back at a convex joint", n)
			}
		}
	}
}

// A box folded from one strip, grooved inside: each fold takes 2(1-k)·t·tan 45°
// between the neutral faces, so the strip is as long as the box's outer girth
// less the outer corners at its one seam.
// Source: the mitre setback t·tan(fold/2) of two plates.
func TestMake_foldsHingeOnTheOuterFace(t *testing.T) {
	tube := lathe(-50, 50, func(float64) float64 { return 50 })
	corners := []float64{math.Pi / 4, 3 * math.Pi / 4, 5 * math.Pi / 4, 7 * math.Pi / 4}
	const thick, k = 6.0, 0.5
	p := build(t, plan{
		rings: []ringPlan{{name: "low", level: -20, section: -20, corners: corners}, {name: "high", level: 20, section: 20, corners: corners}},
		bands: []bandPlan{{name: "box", from: 0, to: 1, seams: []float64{math.Pi / 4}}},
	}, newLimit(tube, plain(k*thick), false))
	box := geom.Bounds(p.Panels[0].Outline)
	neutral := 2 * (50 + k*thick)
	if want := 4*neutral + 3*2*(1-k)*thick; math.Abs(box.Max.X-box.Min.X-want) > 0.01 {
		t.Errorf("the strip is %.3f mm long, want %.3f", box.Max.X-box.Min.X, want)
	}
	if len(p.Panels[0].Folds) != 3 {
		t.Errorf("%d folds, want 3", len(p.Panels[0].Folds))
	}
}
