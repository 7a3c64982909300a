package pattern

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// wall is a flat part of foam as it is cut: at each depth of the foam its outline, whose
// joined edges slope as their bevels say.
type wall struct {
	*Panel
	at, x, y, out r3.Vec
	thick         float64
}

func wallOf(p *Piece, panel *Panel) wall {
	w := wall{Panel: panel, thick: p.Foam(panel)}
	_, w.out = panel.Surface.LiftWithNormal(geom.Centroid(panel.Outline))
	c := geom.Centroid(panel.Outline)
	o := panel.Surface.Lift(c)
	w.x = r3.Sub(panel.Surface.Lift(r2.Add(c, r2.Vec{X: 1})), o)
	w.y = r3.Sub(panel.Surface.Lift(r2.Add(c, r2.Vec{Y: 1})), o)
	w.at = r3.Sub(o, r3.Add(r3.Scale(c.X, w.x), r3.Scale(c.Y, w.y)))
	return w
}

// place is where a place of the template is in space, at a height over the show face,
// which the template is drawn on: the foam lies below it.
func (w wall) place(q r2.Vec, d float64) r3.Vec {
	return r3.Add(w.at, r3.Add(r3.Scale(d, w.out), r3.Add(r3.Scale(q.X, w.x), r3.Scale(q.Y, w.y))))
}

// back is the place of the template, and the height, of a point in space.
func (w wall) back(p r3.Vec) (q r2.Vec, d float64) {
	v := r3.Sub(p, w.at)
	return r2.Vec{X: r3.Dot(v, w.x), Y: r3.Dot(v, w.y)}, r3.Dot(v, w.out)
}

// shift is how far an edge is cut outside its line at a height.
func (e *Edge) shift(d float64) float64 {
	s := d * math.Tan(e.Bevel.Max)
	if !e.Bevel.Undercut {
		s = -s
	}
	return s
}

// ring is the outline at a height.
func (w wall) ring(d float64) (out []r2.Vec) {
	type line struct{ a, b r2.Vec }
	var lines []line
	for _, e := range w.Edges {
		s := 0.0
		if e.Seam > 0 {
			s = e.shift(d)
		}
		for i := range e.Line[1:] {
			way := r2.Unit(r2.Sub(e.Line[i+1], e.Line[i]))
			off := r2.Scale(s, r2.Vec{X: way.Y, Y: -way.X})
			lines = append(lines, line{r2.Add(e.Line[i], off), r2.Add(e.Line[i+1], off)})
		}
	}
	for i, l := range lines {
		n := lines[(i+1)%len(lines)]
		u, v := r2.Sub(l.b, l.a), r2.Sub(n.b, n.a)
		if c := r2.Cross(u, v); math.Abs(c) > 1e-6*r2.Norm(u)*r2.Norm(v) {
			out = append(out, r2.Add(l.a, r2.Scale(r2.Cross(r2.Sub(n.a, l.a), v)/c, u)))
			continue
		}
		out = append(out, l.b, n.a)
	}
	return out
}

// holds tells whether a point is in the foam, deeper than by a margin.
func (w wall) holds(p r3.Vec, margin float64) bool {
	q, d := w.back(p)
	if d > -margin || d < margin-w.thick {
		return false
	}
	ring := w.ring(d)
	return geom.Inside(ring, q) && geom.DistToRing(ring, q) >= margin
}

// withWalls is a piece with a box, and the box's walls.
func withWalls(t *testing.T, o Order) (*Piece, []wall) {
	t.Helper()
	set, _, err := Make(context.Background(), []Order{o}, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	p := &set.Pieces[0]
	var walls []wall
	for i := range p.Panels {
		if p.Panels[i].Role == FlatPart && p.Panels[i].Edges[0].Seam > 0 {
			walls = append(walls, wallOf(p, &p.Panels[i]))
		}
	}
	return p, walls
}

// The walls of a pouch, cut by their templates and bevelled as they say, are a box in
// foam of any thickness: edges that are joined lie on each other on both faces, no two
// walls run into each other, and nothing leaks out between them.
func TestJoins_thePouchCloses(t *testing.T) {
	const knife = 0.1 // mm, as near as the edges must meet
	for _, c := range []struct{ thickness, width, height, depth float64 }{
		{3, 110, 120, 42}, {5, 110, 120, 42}, {10, 110, 120, 42}, {3, 60, 70, 25}, {10, 60, 70, 25}, {10, 160, 180, 70},
	} {
		t.Run(fmt.Sprintf("%g mm foam, %g x %g x %g mm", c.thickness, c.width, c.height, c.depth), func(t *testing.T) {
			p, walls := withWalls(t, Order{Name: "belt", Template: "belt", Thickness: c.thickness, Settings: map[string]Value{
				"pouch width": {Number: c.width}, "pouch height": {Number: c.height}, "pouch depth": {Number: c.depth}}})
			if len(walls) != 7 {
				t.Fatalf("the pouch has %d walls, want 7", len(walls))
			}
			joined := 0
			for _, s := range p.Seams {
				a, z := s.Spans[0].Sides[0], s.Spans[0].Sides[1]
				if p.Panels[a.Panel].Role != FlatPart {
					continue
				}
				joined++
				if off := offEachOther(p, a, z); off > knife {
					t.Errorf("seam %d: its edges are %.2f mm apart", s.Number, off)
				}
			}
			if joined != 10 {
				t.Errorf("%d seams join the walls, want 10", joined)
			}
			keepApart(t, walls, knife)
			holdsIn(t, walls)
			for _, w := range walls {
				if strings.Contains(w.Name, "side") || w.Name == "pouch front" {
					liesUnder(t, w, walls, knife)
				}
			}
		})
	}
}

// offEachOther is how far two joined edges stand apart at most, on the outer face, in the middle
// and on the inner face of the foam.
func offEachOther(p *Piece, a, z EdgeRef) (most float64) {
	v, w := wallOf(p, &p.Panels[a.Panel]), wallOf(p, &p.Panels[z.Panel])
	e, f := &v.Edges[a.Edge], &w.Edges[z.Edge]
	for _, share := range []float64{-1, -0.5, 0} {
		d := share * v.thick
		one, other := geom.OffsetLine(e.Line, e.shift(d)), geom.OffsetLine(f.Line, f.shift(d))
		for _, u := range []float64{0, 0.5, 1} {
			x := v.place(geom.At(one, u*e.Length), d)
			y := w.place(geom.At(other, (1-u)*f.Length), d)
			most = max(most, geom.Dist(x, y))
		}
	}
	return most
}

// keepApart holds walls to not running into each other.
func keepApart(t *testing.T, walls []wall, knife float64) {
	t.Helper()
	tried := 0
	for i, v := range walls {
		box := geom.Bounds(v.Outline)
		for _, share := range []float64{-0.98, -0.7, -0.3, -0.02} {
			d := share * v.thick
			ring := v.ring(d)
			for x := box.Min.X - v.thick; x < box.Max.X+v.thick; x += 1.7 {
				for y := box.Min.Y - v.thick; y < box.Max.Y+v.thick; y += 1.7 {
					q := r2.Vec{X: x, Y: y}
					if !geom.Inside(ring, q) {
						continue
					}
					tried++
					for j, w := range walls {
						if i != j && w.holds(v.place(q, d), knife) {
							t.Fatalf("%s %s is in %s %s, at (%.1f, %.1f) of its template", v.Label, v.Name, w.Label, w.Name, x, y)
						}
					}
				}
			}
		}
	}
	if tried < 1000 {
		t.Errorf("only %d places were tried", tried)
	}
}

// liesUnder holds the free edge of a wall to end at another one, as below a lid.
func liesUnder(t *testing.T, w wall, walls []wall, knife float64) {
	t.Helper()
	for _, e := range w.Edges {
		if e.Seam > 0 {
			continue
		}
		beyond := geom.OffsetLine(e.Line, 2*knife)
		for _, u := range []float64{0.3, 0.5, 0.7} { // nearer its ends are the walls beside it
			at, under := w.place(geom.At(beyond, u*e.Length), -w.thick/2), false
			for _, o := range walls {
				under = under || o.Label != w.Label && o.holds(at, 0)
			}
			if !under {
				t.Errorf("%s %s ends in the air at %.1f", w.Label, w.Name, at)
			}
		}
	}
}

// holdsIn looks out of the middle of a box: every way meets foam.
func holdsIn(t *testing.T, walls []wall) {
	t.Helper()
	var middle r3.Vec
	n := 0.0
	for _, w := range walls[:2] { // the front and the back
		middle = r3.Add(middle, w.place(geom.Centroid(w.Outline), 0))
		n++
	}
	middle = r3.Scale(1/n, middle)
	rng := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		way := r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
		met := false
		for s := 5.0; s < 200 && !met; s += 0.2 {
			for _, w := range walls {
				met = met || w.holds(r3.Add(middle, r3.Scale(s, way)), 0)
			}
		}
		if !met {
			t.Fatalf("the box is open towards %.2f", way)
		}
	}
}

// What fastens one flat part on another must lie on both.
func TestFastenFlat_besideItsPart(t *testing.T) {
	lid := strings.Replace(walled, "joins:", "  - {name: flap, facing: left, x: 85 mm, points: [[20 mm, 0], [60 mm, 0], [60 mm, 20 mm], [20 mm, 20 mm]]}\njoins:", 1)
	snap := func(x, y int) string {
		return lid + fmt.Sprintf("fastenings:\n  - {kind: snap, on: wall, x: %d mm, y: %d mm, part: flap}\n", x, y)
	}
	p, err := madeOf(t, snap(40, 10))
	if err != nil {
		t.Fatal(err)
	}
	marks := map[string]string{}
	for _, panel := range p.Panels {
		for _, m := range panel.Marks {
			if m.Kind == "fastening" {
				marks[panel.Name] += m.Text
				at, _ := panel.Surface.LiftWithNormal(geom.Centroid(m.Line))
				if math.Abs(at.Z-40) > 1e-9 || math.Abs(at.Y-10) > 1e-9 {
					t.Errorf("%q on %s stands at %.1f", m.Text, panel.Name, at)
				}
			}
		}
	}
	if marks["wall"] != "snap 1, stud" || marks["flap"] != "snap 1, socket, on the face to TR2" {
		t.Errorf("marks %v", marks)
	}
	for _, at := range [][2]int{{10, 10}, {40, 25}, {40, 40}} {
		_, err := madeOf(t, snap(at[0], at[1]))
		want := fmt.Sprintf("tray.yaml:17: the snap: its place on the flat part \"wall\", x %d mm and y %d mm, is not below \"flap\"", at[0], at[1])
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// walled is a tray of flats alone, with a place for what is wrong with it.
const walled = `format: 1
title: Tray
about: A tray.
code: TR
governs: [hand girth]
thickness: 5 mm
frame: {free: true}
flats:
  - {name: floor, facing: bottom, points: [[0, 0], [80 mm, 0], [80 mm, 60 mm], [0, 60 mm]]}
  - {name: wall, facing: left, x: 80 mm, points: [[0, 0], [60 mm, 0], [60 mm, 30 mm], [0, 30 mm]]}
  - {name: end, facing: front, z: 60 mm, points: [[0, 0], [80 mm, 0], [80 mm, 30 mm], [0, 30 mm]]}
joins:
  - {part: floor, to: [wall, end]}
  - {part: wall, to: [end], by: cloth}
`

func madeOf(t *testing.T, yaml string) (*Piece, error) {
	t.Helper()
	fsys := fstest.MapFS{"tray.yaml": {Data: []byte(yaml)}}
	set, _, err := Make(context.Background(), []Order{{Name: "tray", Template: "tray"}}, fsys, drawnForm(t), Material{K: 0.5})
	if err != nil {
		return nil, err
	}
	return &set.Pieces[0], nil
}

// Flats of a template without a shell are joined like others; a maker's slips are told
// with the place of the join.
func TestJoins_whatIsWrongWithThem(t *testing.T) {
	p, err := madeOf(t, walled)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Seams) != 3 || p.Seams[0].Kind != Butt || p.Seams[2].Kind != ClothHinge || len(p.Notes) != 1 || !strings.Contains(p.Notes[0], "cut 1 of 30 mm by 30 mm") {
		t.Errorf("seams %+v, notes %q", p.Seams, p.Notes)
	}
	if s := p.Sheets; len(s) != 1 || s[0].Count != 1 || s[0].Long != 30 || s[0].Broad != 30 {
		t.Errorf("parts without a template: %+v, want one cloth of 30 by 30 mm", s)
	}
	for _, c := range []struct{ old, with, want string }{
		{"x: 80 mm", "x: 84 mm", "tray.yaml:13: flat parts \"floor\" and \"wall\": they do not meet"},
		{"x: 80 mm", "x: 84 mm", "the nearest two run 4 mm apart"},
		{"[60 mm, 30 mm], [0, 30 mm]]}\n  - {name: end", "[60 mm, 20 mm], [0, 20 mm]]}\n  - {name: end", ""}, // one edge lies within the other
		{"{name: wall, facing: left, x: 80 mm,", "{name: wall, facing: left, x: 80 mm, z: 20 mm,", "each sticks out past the other"},
		{"name: wall, facing: left", "name: wall, facing: right", "turn the facing of one round"},
		{"bottom, points: [[0, 0], [80 mm, 0], [80 mm, 60 mm], [0, 60 mm]]}\n  - {name: wall, facing: left", "top, points: [[0, 0], [80 mm, 0], [80 mm, 60 mm], [0, 60 mm]]}\n  - {name: wall, facing: right", "look into the corner"},
		{"name: end,", "name: end, thickness: 8 mm,", "of one thickness"},
		{"name: end,", "name: end, count: 2,", "of one 1 are cut and of the other 2"},
		{"- {part: wall, to: [end], by: cloth}", "- {part: end, to: [lid]}\n", "no flat part \"lid\""},
		{"joins:", "  - {name: floor again, facing: bottom, points: [[0, 0], [80 mm, 0], [80 mm, 60 mm], [0, 60 mm]]}\njoins:\n  - {part: floor again, to: [wall]}", "joined to both"},
	} {
		if !strings.Contains(walled, c.old) {
			t.Fatalf("nothing to change: %s", c.old)
		}
		_, err := madeOf(t, strings.Replace(walled, c.old, c.with, 1))
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("with %q: %v, want %q", c.with, err, c.want)
		}
	}
}
