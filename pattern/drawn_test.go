package pattern_test

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func madeFor(o pattern.Order, files fs.FS, form *body.Form) (*pattern.Piece, []report.Finding, error) {
	set, found, err := pattern.Make(context.Background(), []pattern.Order{o}, files, form, pattern.Material{K: 0.5})
	if err != nil {
		return nil, nil, err
	}
	return &set.Pieces[0], found, nil
}

// wholeShell is a piece's shell in piece axes as if nothing were cut out of it.
func wholeShell(p *pattern.Piece) geom.Mesh {
	var m geom.Mesh
	for i := range p.Panels {
		s := &p.Panels[i].Surface
		m.Append(geom.Mesh{V: s.Bent, T: s.T})
		if p.Panels[i].Copies > p.Copies {
			m.Append(geom.Mesh{V: s.Bent, T: s.T}.MirroredX())
		}
	}
	return m
}

// cutLines are the edges of what was cut out of a piece, lifted back into space.
func cutLines(p *pattern.Piece, is func(pattern.Edge) bool) [][]r3.Vec {
	var out [][]r3.Vec
	for i := range p.Panels {
		panel := &p.Panels[i]
		var lines [][]r2.Vec
		for _, h := range panel.Holes {
			lines = append(lines, append(append([]r2.Vec(nil), h...), h[0]))
		}
		for _, e := range panel.Edges {
			if is(e) {
				lines = append(lines, e.Line)
			}
		}
		for _, l := range lines {
			var up, image []r3.Vec
			for _, q := range l {
				v := panel.Surface.Lift(q)
				up, image = append(up, v), append(image, r3.Vec{X: -v.X, Y: v.Y, Z: v.Z})
			}
			out = append(out, up)
			if panel.Copies > p.Copies {
				out = append(out, image)
			}
		}
	}
	return out
}

func opened(e pattern.Edge) bool { return e.Kind == pattern.Opening }

// runsOff is how far one set of lines runs off another at most, by points and
// the middles between them.
func runsOff(lines, from [][]r3.Vec) float64 {
	most := 0.0
	for _, l := range lines {
		for i := 0; i+1 < len(l); i++ {
			for _, q := range []r3.Vec{l[i], geom.Lerp(l[i], l[i+1], 0.5)} {
				best := math.Inf(1)
				for _, f := range from {
					best = min(best, offLine(f, q))
				}
				most = max(most, best)
			}
		}
	}
	return most
}

func offLine(line []r3.Vec, p r3.Vec) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(line); i++ {
		ab := r3.Sub(line[i+1], line[i])
		u := min(max(r3.Dot(r3.Sub(p, line[i]), ab)/max(r3.Norm2(ab), 1e-12), 0), 1)
		best = min(best, geom.Dist(p, r3.Add(line[i], r3.Scale(u, ab))))
	}
	return best
}

// onShell puts points written as from the front onto a shell.
func onShell(t *testing.T, l *geom.Locator, pts []r2.Vec) []r3.Vec {
	t.Helper()
	var out []r3.Vec
	for _, q := range pts {
		from := r3.Vec{X: q.X, Y: q.Y, Z: 2000}
		d, _, ok := l.Hit(from, r3.Vec{Z: -1})
		if !ok {
			t.Fatalf("the shell has nothing at %.0f, %.0f", q.X, q.Y)
		}
		out = append(out, r3.Vec{X: q.X, Y: q.Y, Z: from.Z - d})
	}
	return out
}

// drawnThrough is the curve through points of a piece as a lens sees it.
func drawnThrough(p *pattern.Piece, eye r3.Vec, pts []r3.Vec) pattern.Drawn {
	d := pattern.Drawn{Kind: pattern.DrawnOpening, Eye: p.Frame.Point(eye), Where: "costume.yaml:9"}
	for _, q := range pts {
		d.Rays = append(d.Rays, r3.Unit(r3.Sub(p.Frame.Point(q), d.Eye)))
	}
	return d
}

func ellipse(x, y, a, b float64, n int) []r2.Vec {
	var out []r2.Vec
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.3) / float64(n))
		out = append(out, r2.Vec{X: x + a*c, Y: y + b*s})
	}
	return out
}

// A curve known in space, drawn through a lens 1.5 m away that stands a little
// to the side, comes back on the panels where it was.
func TestDrawn_openingComesBack(t *testing.T) {
	for i := range max(*bodies/25, 1) {
		form := drawBody(t, i)
		for _, c := range []struct {
			order string
			name  string
			shape func(n int) []r2.Vec
		}{
			{"helm", "eye slot", func(n int) []r2.Vec { return ellipse(35, 30, 28, 12, n) }},
			{"gores", "face", func(n int) []r2.Vec { return ellipse(0, 10, 52, 45, n) }},
			{"strips", "face", func(n int) []r2.Vec { return ellipse(0, 40, 48, 30, n) }},
		} {
			t.Run(fmt.Sprintf("%d/%s", i, c.order), func(t *testing.T) {
				o := sweepOrder(c.order)
				plain, _, err := madeFor(o, templates.FS, form)
				if err != nil {
					t.Fatal(err)
				}
				l := geom.NewLocator(wholeShell(plain))
				eye := r3.Vec{X: 35, Y: 60, Z: 1500}
				d := drawnThrough(plain, eye, onShell(t, l, c.shape(40)))
				d.Name = c.name
				o.Drawn = []pattern.Drawn{d}
				o.Settings = withoutHoles(o)
				p, found, err := madeFor(o, templates.FS, form)
				if err != nil {
					t.Fatal(err)
				}
				pattern.CheckPiece(t, p)
				truth := onShell(t, l, c.shape(1200))
				truth = append(truth, truth[0])
				want := [][]r3.Vec{truth}
				if c.order == "helm" { // the slot and its image
					var image []r3.Vec
					for _, q := range truth {
						image = append(image, r3.Vec{X: -q.X, Y: q.Y, Z: q.Z})
					}
					want = append(want, image)
				}
				got := cutLines(p, opened)
				if a, b := runsOff(got, want), runsOff(want, got); a > 0.2 || b > 0.2 {
					t.Errorf("the opening runs %.3f mm off the curve, the curve %.3f mm off the opening (%v)", a, b, found)
				}
			})
		}
	}
}

// drawnOn are the pieces that curves are drawn on in these tests.
var drawnOn = []pattern.Order{
	{Name: "vambrace", Template: "vambrace"},
	{Name: "greave", Template: "greave"},
	{Name: "helm", Template: "helm"},
	{Name: "gores", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "gores"}}},
	{Name: "strips", Template: "open-helmet", Settings: map[string]pattern.Value{"layout": {Typed: "strips"}}},
}

func sweepOrder(name string) pattern.Order {
	for _, o := range drawnOn {
		if o.Name == name {
			return o
		}
	}
	panic(name)
}

func withoutHoles(o pattern.Order) map[string]pattern.Value {
	out := map[string]pattern.Value{}
	for k, v := range o.Settings {
		out[k] = v
	}
	if o.Template == "helm" {
		out["breathing holes"] = pattern.Value{Number: 0, Typed: "0"}
	}
	return out
}

const masked = `
format: 1
title: Mask
about: A closed helm with one opening by numbers.
code: M
governs: [head girth]
thickness: 5 mm
ease: 10 mm
draw: down
mirror: true
frame: {segment: head}
rings:
  - {name: neck, at: chin - 10 mm}
  - {name: top, at: crown, section: crown - 40 mm}
bands:
  - {name: wall, from: neck, to: top, seams: {at: [30 deg, 150 deg, 210 deg, 330 deg]}}
cap: {kind: plate}
openings:
  - name: face
    view: front
    smooth: true
    points:
POINTS
`

// Seen from a kilometre away, a drawn opening is the one that the template cuts
// along the same points.
func TestDrawn_farAwayIsTheTemplatesOwn(t *testing.T) {
	points := []r2.Vec{{X: -55, Y: -20}, {X: 0, Y: -45}, {X: 55, Y: -20}, {X: 62, Y: 40}, {X: 0, Y: 55}, {X: -62, Y: 40}}
	var lines strings.Builder
	for _, q := range points {
		fmt.Fprintf(&lines, "      - [%g mm, %g mm]\n", q.X, q.Y)
	}
	files := fstest.MapFS{"mask.yaml": {Data: []byte(strings.Replace(masked, "POINTS", lines.String(), 1))}}
	form := drawBody(t, 0)
	o := pattern.Order{Name: "mask", Template: "mask"}
	own, _, err := madeFor(o, files, form)
	if err != nil {
		t.Fatal(err)
	}
	var pts []r3.Vec
	for _, q := range points {
		pts = append(pts, r3.Vec{X: q.X, Y: q.Y, Z: 100})
	}
	d := drawnThrough(own, r3.Vec{Z: 1e6}, pts)
	d.Name = "Face"
	o.Drawn = []pattern.Drawn{d}
	drawn, found, err := madeFor(o, files, form)
	if err != nil {
		t.Fatal(err)
	}
	if len(found) > 0 && strings.Contains(fmt.Sprint(found), "differ") {
		t.Errorf("an even curve is found uneven: %v", found)
	}
	pattern.CheckPiece(t, drawn)
	if len(own.Panels) != len(drawn.Panels) {
		t.Fatalf("%d panels, the template's own has %d", len(drawn.Panels), len(own.Panels))
	}
	a, b := cutLines(own, opened), cutLines(drawn, opened)
	if x, y := runsOff(a, b), runsOff(b, a); len(a) == 0 || x > 0.05 || y > 0.05 {
		t.Errorf("%d cut lines; they run %.4f and %.4f mm off each other", len(a), x, y)
	}
}
