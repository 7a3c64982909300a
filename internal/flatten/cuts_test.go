package flatten

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestRows_anyCounts_makeADiscWithLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows Rows
		for range rapid.IntRange(2, 9).Draw(t, "rows") {
			rows = append(rows, rapid.IntRange(2, 12).Draw(t, "row"))
		}
		if rapid.Bool().Draw(t, "tip") {
			rows[len(rows)-1] = 1
		}
		tris := rows.Triangles()
		p, err := Prepare(rows.Vertices(), tris)
		if err != nil {
			t.Fatal(err)
		}
		joined := map[[2]int]bool{}
		for _, tri := range tris {
			for k := range 3 {
				a, b := tri[k], tri[(k+1)%3]
				joined[[2]int{a, b}], joined[[2]int{b, a}] = true, true
			}
		}
		for v := range rows.Vertices() {
			for _, line := range rows.Lines(v) {
				if !slices.Contains(line, v) {
					t.Fatalf("line %v does not go through %d", line, v)
				}
				for k := range len(line) - 1 {
					if !joined[[2]int{line[k], line[k+1]}] {
						t.Fatalf("rows %v: line %v runs where no edge is", rows, line)
					}
				}
				if !slices.Contains(p.border, line[0]) || !slices.Contains(p.border, line[len(line)-1]) {
					t.Fatalf("line %v does not end on the border", line)
				}
			}
		}
	})
}

func TestRows_corners_haveNoLooseTriangle(t *testing.T) {
	for _, rows := range []Rows{GridRows(6, 5), {9, 8, 7, 6, 5}, {5, 6, 7, 9}, {8, 6, 4, 3, 1}} {
		p, err := Prepare(rows.Vertices(), rows.Triangles())
		if err != nil {
			t.Fatal(err)
		}
		n := len(p.border)
		for k, tri := range rows.Triangles() {
			edges := 0
			for c := range 3 {
				i := slices.Index(p.border, tri[c])
				if i >= 0 && p.border[(i+1)%n] == tri[(c+1)%3] {
					edges++
				}
			}
			if edges > 1 {
				t.Errorf("rows %v: triangle %d has %d border edges", rows, k, edges)
			}
		}
	}
}

// toTip is a gore of a sphere of 100 mm whose rows get shorter towards the pole.
func toTip(width float64, n int) (Rows, []r3.Vec) {
	var rows Rows
	var v []r3.Vec
	for i := range n {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / float64(n))
		cells := max(2, int(math.Ceil(c*width*degree/(math.Pi/2)*float64(n))))
		rows = append(rows, cells+1)
		for j := range cells + 1 {
			ls, lc := math.Sincos(width * degree * (float64(j)/float64(cells) - 0.5))
			v = append(v, r3.Vec{X: 100 * c * ls, Y: 100 * s, Z: 100 * c * lc})
		}
	}
	return append(rows, 1), append(v, r3.Vec{Y: 100})
}

func TestSolve_goresToAPoint_areFlattened(t *testing.T) {
	for _, width := range []float64{30, 45, 90, 180} {
		rows, v := toTip(width, 36)
		p, err := Prepare(len(v), rows.Triangles())
		if err != nil {
			t.Fatal(err)
		}
		f, err := p.Solve(v, nil)
		if err != nil {
			t.Errorf("a gore of %g°: %v", width, err)
			continue
		}
		checkBorder(t, "gore", p, f, p.BorderLengths(v))
		t.Logf("gore of %g° to a point: %d triangles, %d steps, energy/area %.4e, p95 %.4f", width, len(p.t), f.Steps, perArea(t, p, v, f), distortion(t, p, v, f))
		if f.Steps > 7 {
			t.Errorf("a gore of %g° takes %d steps", width, f.Steps)
		}
	}
}

func TestCuts_bestDart_halvesTheStrain(t *testing.T) {
	for _, c := range []panel{calf(40, 28), ball("gore of 90", 90, 0, 85, 31, 31), ball("quarter", 90, -85, 85, 49, 21)} {
		p, v, whole := solve(t, c)
		swell, at, err := p.Swell(v)
		if err != nil || swell != whole.Swell || at != whole.SwellAt {
			t.Fatalf("%s: |u| %g at %d, %v; solved %g at %d", c.name, swell, at, err, whole.Swell, whole.SwellAt)
		}
		before := distortion(t, p, v, whole)
		if r := before / swell; r < 0.46 || r > 0.85 {
			t.Errorf("%s: p95 is %.2f of |u|max", c.name, r)
		}
		cuts, err := p.Cuts(v, GridRows(c.rows, c.cols).Lines(at))
		if err != nil {
			t.Fatal(err)
		}
		if len(cuts) != 10 {
			t.Fatalf("%s: %d cuts, want 10", c.name, len(cuts))
		}
		var after []float64
		for k, cut := range cuts {
			if k > 0 && cut.Swell < cuts[k-1].Swell-1e-9 {
				t.Errorf("%s: cut %d is out of order", c.name, k)
			}
			if !cut.Seam {
				after = append(after, afterDart(t, p, v, cut.Path))
			}
		}
		best := slices.Min(after)
		t.Logf("%s: p95 %.4f; after darts, as ranked, %.4f", c.name, before, after)
		if three := slices.Min(after[:3]); three > best*1.05 {
			t.Errorf("%s: the first three darts leave %.4f, the best %.4f", c.name, three, best)
		}
		if before/after[0] < 1.6 {
			t.Errorf("%s: the first dart takes p95 from %.4f to %.4f", c.name, before, after[0])
		}
	}
}

// afterDart is the strain of a panel with a dart.
func afterDart(t *testing.T, p *Patch, v []r3.Vec, path []int) float64 {
	t.Helper()
	tris, twins, err := Dart(len(v), p.t, path)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range twins {
		v = append(v[:len(v):len(v)], v[i])
	}
	q, err := Prepare(len(v), tris)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(q.border); n != len(p.border)+2*(len(path)-1) {
		t.Fatalf("the border has %d edges after a dart of %d, had %d", n, len(path)-1, len(p.border))
	}
	f, err := q.Solve(v, nil)
	if err != nil {
		t.Fatal(err)
	}
	return distortion(t, q, v, f)
}

func TestCuts_saddle_hasNoDarts(t *testing.T) {
	// Legs of a dart where Gauss curvature is negative overlap: the angles round
	// its tip come to more than a full turn.
	c := saddle("saddle", 0.005, 24)
	p, v := c.prepare(t), c.vertices()
	swell, at, err := p.Swell(v)
	if err != nil {
		t.Fatal(err)
	}
	cuts, err := p.Cuts(v, GridRows(c.rows, c.cols).Lines(at))
	if err != nil {
		t.Fatal(err)
	}
	for _, cut := range cuts {
		if !cut.Seam || cut.Swell > swell/2 {
			t.Errorf("cut %+v of a saddle with |u| %.3f", cut, swell)
		}
	}
	if len(cuts) != 2 {
		t.Errorf("%d cuts, want a seam each way", len(cuts))
	}
}

func TestCuts_lopsidedBell_everyDartFlattens(t *testing.T) {
	c := panel{"bell", 41, 31, func(u, v float64) r3.Vec {
		x, y := u-0.2, v-0.75
		return r3.Vec{X: 200 * u, Y: 300 * v, Z: 60 / (1 + 8*x*x + 6*y*y)}
	}}
	p, v, whole := solve(t, c)
	cuts, err := p.Cuts(v, GridRows(c.rows, c.cols).Lines(whole.SwellAt))
	if err != nil {
		t.Fatal(err)
	}
	before, darts := distortion(t, p, v, whole), 0
	for _, cut := range cuts {
		if !cut.Seam {
			darts++
			t.Logf("dart of %d edges: |u| %.4f, p95 from %.4f to %.4f", len(cut.Path)-1, cut.Swell, before, afterDart(t, p, v, cut.Path))
		}
	}
	if darts != 4 { // the other four overlap when they are solved
		t.Errorf("%d darts, want 4", darts)
	}
}

func TestCuts_badLines_sayWhatIsWrong(t *testing.T) {
	c := ball("gore", 45, 0, 60, 5, 4)
	p, v := c.prepare(t), c.vertices()
	for _, bad := range []struct {
		line []int
		says string
	}{
		{[]int{4, 5, 6}, "through the inside"},
		{[]int{0, 1, 2, 3}, "through the inside"},
		{[]int{4, 99, 7}, "points are 0 to 19"},
		{[]int{4, 7}, "takes three"},
		{[]int{4, 10, 7}, "along edges"},
	} {
		if _, err := p.Cuts(v, [][]int{bad.line}); err == nil || !strings.Contains(err.Error(), bad.says) {
			t.Errorf("line %v: %v; want %q", bad.line, err, bad.says)
		}
	}
	if _, _, err := Dart(20, p.t, []int{4, 6}); err == nil || !strings.Contains(err.Error(), "along edges") {
		t.Errorf("a dart where no edge is: %v", err)
	}
}

func BenchmarkCuts2000(b *testing.B) {
	c := gore2000()
	p, v := c.prepare(b), c.vertices()
	for b.Loop() {
		_, at, err := p.Swell(v)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := p.Cuts(v, GridRows(c.rows, c.cols).Lines(at)); err != nil {
			b.Fatal(err)
		}
	}
}
