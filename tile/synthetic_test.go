package tile

import (
	"context"
	"math"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// side is one edge of a made-up panel.
type side struct {
	line    []r2.Vec
	kind    pattern.EdgeKind
	seam    int
	partner string
	bevel   float64
	lap     float64
}

// panelOf builds a panel from its sides, with notches every 60 mm.
func panelOf(label, name string, sides ...side) pattern.Panel {
	p := pattern.Panel{Label: label, Name: name, Copies: 2, Flipped: 1, Up: r2.Vec{Y: 1}}
	for _, s := range sides {
		p.Outline = append(p.Outline, s.line[:len(s.line)-1]...)
		e := pattern.Edge{Kind: s.kind, Seam: s.seam, Span: 1, Line: s.line, Length: geom.Length(s.line), Along: true,
			Allowance: s.lap, Partner: s.partner, Bevel: pattern.Bevel{Min: s.bevel, Max: s.bevel, Undercut: true}}
		if s.seam > 0 {
			e.Notches = notches(s.line)
		}
		p.Edges = append(p.Edges, e)
	}
	return p
}

func notches(line []r2.Vec) []pattern.Notch {
	var out []pattern.Notch
	total := geom.Length(line)
	count := int(total / 60)
	for k := 1; k <= count; k++ {
		s := total * float64(k) / float64(count+1)
		a, b := geom.At(line, s-0.5), geom.At(line, s+0.5)
		d := r2.Unit(r2.Sub(b, a))
		out = append(out, pattern.Notch{At: s, P: geom.At(line, s), In: r2.Vec{X: -d.Y, Y: d.X}, Rank: k})
	}
	return out
}

func box(label, name string, w, h float64) pattern.Panel {
	c := []r2.Vec{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	return panelOf(label, name,
		side{line: c[0:2], kind: pattern.Rim},
		side{line: c[1:3], kind: pattern.Butt, seam: 1, partner: "B2", bevel: units.Rad(22)},
		side{line: c[2:4], kind: pattern.Opening},
		side{line: []r2.Vec{c[3], c[0]}, kind: pattern.Closure, seam: 2, partner: "B3"})
}

// gore is a slice of a dome: two curved edges that meet at a point.
func gore(label string, radius float64, n int) pattern.Panel {
	const steps = 40
	half := func(t float64) r2.Vec {
		return r2.Vec{X: math.Pi * radius / float64(n) * math.Cos(t), Y: radius * t}
	}
	var right, left []r2.Vec
	for i := 0; i <= steps; i++ {
		p := half(math.Pi / 2 * float64(i) / steps)
		right = append(right, p)
	}
	for i := steps; i >= 0; i-- {
		p := right[i]
		left = append(left, r2.Vec{X: -p.X, Y: p.Y})
	}
	right[steps].X, left[0].X = 0, 0
	return panelOf(label, "gore",
		side{line: []r2.Vec{left[steps], right[0]}, kind: pattern.Rim},
		side{line: right, kind: pattern.Butt, seam: 3, partner: "G2", bevel: units.Rad(11)},
		side{line: left, kind: pattern.Butt, seam: 4, partner: "G8", bevel: units.Rad(11)})
}

// long is larger than an A4 page: a waved band with two seams along it.
func long(label string, length, height float64) pattern.Panel {
	var low, high []r2.Vec
	for i := 0; i <= 70; i++ {
		x := length * float64(i) / 70
		low = append(low, r2.Vec{X: x, Y: 20 * math.Sin(x/110)})
		high = append(high, r2.Vec{X: length - x, Y: height + 20*math.Sin((length-x)/110)})
	}
	return panelOf(label, "outer side",
		side{line: low, kind: pattern.Butt, seam: 5, partner: "L2", bevel: units.Rad(30)},
		side{line: []r2.Vec{low[70], high[0]}, kind: pattern.Rim},
		side{line: high, kind: pattern.Butt, seam: 6, partner: "L3", bevel: units.Rad(5)},
		side{line: []r2.Vec{high[70], low[0]}, kind: pattern.Closure, seam: 7, partner: "L4"})
}

func synthetic() *pattern.Set {
	bent := box("V1", "outer side", 120, 90)
	bent.Folds = []pattern.Fold{{Line: []r2.Vec{{X: 60}, {X: 60, Y: 90}}, Kind: "grooved inside", Angle: units.Rad(60)}}
	bent.Marks = []pattern.Mark{{Kind: "fastening", Line: []r2.Vec{{X: 75, Y: 55}, {X: 110, Y: 55}, {X: 110, Y: 80}, {X: 75, Y: 80}}, Close: true, Text: "hook-and-loop, hook side, inside"}}
	holed := box("V2", "inner side", 100, 140)
	holed.Holes = [][]r2.Vec{{{X: 40, Y: 60}, {X: 40, Y: 90}, {X: 70, Y: 90}, {X: 70, Y: 60}}}
	var gores []pattern.Panel
	for _, l := range []string{"G1", "G2", "G3"} {
		gores = append(gores, gore(l, 115, 8))
	}
	gores = append(gores, box("G4", "strip", 24, 24), box("G5", "tab", 60, 22))
	return &pattern.Set{Pieces: []pattern.Piece{
		{Name: "left vambrace", Title: "Vambrace", Code: "V", Copies: 2, Thickness: 5, K: 0.5, Panels: []pattern.Panel{bent, holed}, Clearance: 6.2, Asked: 5,
			Governs:  []pattern.Governing{{Measurement: body.Measurement{Name: "forearm girth", Side: body.Left, Value: 276, SD: 3, Origin: body.Taped}, Good: true}},
			Settings: []pattern.Setting{{Name: "ease", Value: 25, Unit: "mm", Typed: true}, {Name: "gap angle", Value: 0.7, Unit: "deg"}},
			Seams:    []pattern.Seam{{Number: 1, Kind: pattern.Butt, Line: []r3.Vec{{}, {Y: 90}}, Length: 90, Spans: []pattern.Span{{To: 90, Sides: [2]pattern.EdgeRef{{Panel: 0, Edge: 1}, {Panel: 1, Edge: 3}}}}}}},
		{Name: "dome", Title: "Skull cap", Code: "G", Copies: 1, Thickness: 5, K: 0.5, Panels: gores, Draft: true, DraftWhy: "measure head girth: it is only estimated (± 14 mm)"},
		{Name: "belt", Title: "Belt", Code: "L", Copies: 1, Thickness: 8, K: 0.5, Panels: []pattern.Panel{long("L1", 700, 260)}},
	}}
}

func laid(t *testing.T, set *pattern.Set, paper string) *Plan {
	t.Helper()
	p, err := ParsePaper(paper)
	if err != nil {
		t.Fatal(err)
	}
	plan, _, err := Lay(context.Background(), set, p, nil)
	if err != nil {
		t.Fatal(err)
	}
	plan.Title = "Test costume"
	return plan
}
