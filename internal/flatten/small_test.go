package flatten

import (
	"errors"
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestSolve_oneTriangle_isItself(t *testing.T) {
	p, err := Prepare(3, [][3]int{{2, 0, 1}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := p.Solve([]r3.Vec{{}, {X: 30, Z: 40}, {Y: 70}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "first edge", f.Flat[1].X, 50, 1e-9)
	near(t, "area", geom.Area(f.Flat), 50*70/2, 1e-6)
	if f.Energy > 1e-15 || f.SwellAt < 0 {
		t.Errorf("energy %g", f.Energy)
	}
}

func TestSolve_fewTriangles_keepOrRefuse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyPanel(t)
		c.rows, c.cols = rapid.IntRange(2, 6).Draw(t, "few rows"), rapid.IntRange(2, 6).Draw(t, "few cols")
		p, err := Prepare(c.rows*c.cols, GridRows(c.rows, c.cols).Triangles())
		if err != nil {
			t.Fatal(err)
		}
		v := c.vertices()
		length := p.BorderLengths(v)
		for k := range length {
			length[k] *= rapid.Float64Range(0.9, 1.1).Draw(t, "ease")
		}
		f, err := p.Solve(v, length)
		var why *Refusal
		switch {
		case err == nil:
			checkBorder(t, c.name, p, f, length)
		case !errors.As(err, &why):
			t.Fatal(err)
		}
	})
}

func TestSolve_notchedPanel_isFlattened(t *testing.T) {
	// A shank with a bite of 8 × 9 cells out of its side: four corners more, two
	// of them hollow.
	c := calf(46, 34)
	gone := func(i, j int) bool { return i >= 20 && i < 28 && j < 9 }
	index := make([]int, c.rows*c.cols)
	var tris [][3]int
	var v []r3.Vec
	all := c.vertices()
	name := func(i int) int {
		if index[i] == 0 {
			v = append(v, all[i])
			index[i] = len(v)
		}
		return index[i] - 1
	}
	for k, tri := range GridRows(c.rows, c.cols).Triangles() {
		if cell := k / 2; !gone(cell/(c.cols-1), cell%(c.cols-1)) {
			tris = append(tris, [3]int{name(tri[0]), name(tri[1]), name(tri[2])})
		}
	}
	p, err := Prepare(len(v), tris)
	if err != nil {
		t.Fatal(err)
	}
	f, err := p.Solve(v, nil)
	if err != nil {
		t.Fatal(err)
	}
	checkBorder(t, "notched", p, f, p.BorderLengths(v))
	t.Logf("%d triangles, %d steps, p95 %.4f, braced %v", len(tris), f.Steps, distortion(t, p, v, f), f.Braced)
	if f.Steps > 7 || math.IsNaN(f.Energy) {
		t.Errorf("%d steps", f.Steps)
	}
}

func TestSolver_step_allocatesNothing(t *testing.T) {
	c := saddle("saddle", 0.0025, 12)
	p, v := c.prepare(t), c.vertices()
	tri, _ := p.atRest(v)
	length := p.BorderLengths(v)
	st, _ := p.begin(tri, length)
	s := newSolver(p.bent, tri, p.loop, length, st.z)
	s.bend = newBrace(p.loop, length, st.turn, 100)
	if n := testing.AllocsPerRun(5, func() {
		s.look()
		s.balanced()
		s.factor()
		s.step()
	}); n > 0 {
		t.Errorf("a step makes %g allocations", n)
	}
}
