package pattern

import (
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// checkPiece holds a piece to what must be true of every piece. It stands at
// the end of every test that makes one.
func checkPiece(t *testing.T, p *Piece) {
	t.Helper()
	for i := range p.Panels {
		checkPanel(t, p, &p.Panels[i])
	}
	checkSeams(t, p)
}

func checkPanel(t *testing.T, p *Piece, panel *Panel) {
	t.Helper()
	s := &panel.Surface
	uses := map[[2]int]int{}
	for _, tri := range s.T {
		for k := range 3 {
			a, b := tri[k], tri[(k+1)%3]
			uses[[2]int{min(a, b), max(a, b)}]++
		}
	}
	for _, tri := range s.T {
		for k := range 3 {
			a, b := tri[k], tri[(k+1)%3]
			if panel.Formed != nil && uses[[2]int{min(a, b), max(a, b)}] == 2 {
				continue // inside a formed panel foam is stretched
			}
			flat, bent := geom.Dist(s.Flat[a], s.Flat[b]), geom.Dist(s.Bent[a], s.Bent[b])
			if math.Abs(flat-bent) > 1e-9*bent+1e-11 && (panel.Formed == nil || math.Abs(flat-bent) > 1e-7) {
				t.Fatalf("%s %s: an edge of %.9f mm is %.9f mm in the plane", p.Name, panel.Label, bent, flat)
			}
		}
		if r2.Cross(r2.Sub(s.Flat[tri[1]], s.Flat[tri[0]]), r2.Sub(s.Flat[tri[2]], s.Flat[tri[0]])) <= 0 {
			t.Fatalf("%s %s: a triangle is turned over in the plane", p.Name, panel.Label)
		}
	}
	if _, _, crosses := geom.Crossing(panel.Outline); crosses {
		t.Errorf("%s %s: the outline crosses itself", p.Name, panel.Label)
	}
	if geom.Area(panel.Outline) <= 0 {
		t.Errorf("%s %s: the outline runs clockwise", p.Name, panel.Label)
	}
	for i, e := range panel.Edges {
		next := panel.Edges[(i+1)%len(panel.Edges)]
		if d := geom.Dist(e.Line[len(e.Line)-1], next.Line[0]); d > 1e-6 {
			t.Errorf("%s %s: edge %d ends %.6f mm from where the next begins", p.Name, panel.Label, i, d)
		}
	}
}

func checkSeams(t *testing.T, p *Piece) {
	t.Helper()
	used := map[EdgeRef]int{}
	for _, s := range p.Seams {
		for _, sp := range s.Spans {
			a, b := p.edge(sp.Sides[0]), p.edge(sp.Sides[1])
			if math.Abs(a.Length-b.Length) > 0.01 || math.Abs(a.Length-(sp.To-sp.From)) > 0.01 {
				t.Errorf("%s seam %d: sides of %.4f and %.4f mm on a line of %.4f mm", p.Name, s.Number, a.Length, b.Length, sp.To-sp.From)
			}
			if len(a.Notches) != len(b.Notches) {
				t.Errorf("%s seam %d: %d and %d notches", p.Name, s.Number, len(a.Notches), len(b.Notches))
			}
			for i := range a.Notches {
				if math.Abs(a.Notches[i].At-b.Notches[i].At) > 0.01 {
					t.Errorf("%s seam %d: notch %d at %.3f and %.3f mm", p.Name, s.Number, i, a.Notches[i].At, b.Notches[i].At)
				}
			}
			used[sp.Sides[0]]++
			if sp.Sides[1] != sp.Sides[0] {
				used[sp.Sides[1]]++
			}
			p.checkClosed(t, s, a, b)
		}
	}
	for pi := range p.Panels {
		for ei, e := range p.Panels[pi].Edges {
			if e.Seam > 0 && used[EdgeRef{pi, ei}] == 0 && !p.imageOfUsed(used, e) {
				t.Errorf("%s %s: edge %d of seam %d meets nothing", p.Name, p.Panels[pi].Label, ei, e.Seam)
			}
		}
	}
}

// imageOfUsed tells whether an edge of a mirrored piece is the image of one
// that a seam names: same number, same span, same length.
func (p *Piece) imageOfUsed(used map[EdgeRef]int, e Edge) bool {
	for r := range used {
		if u := p.edge(r); u.Seam == e.Seam && u.Span == e.Span && math.Abs(u.Length-e.Length) < 0.01 {
			return true
		}
	}
	return false
}

func (p *Piece) edge(r EdgeRef) Edge { return p.Panels[r.Panel].Edges[r.Edge] }

// checkClosed lifts both sides of a span back into space: they must lie on the
// seam's line.
func (p *Piece) checkClosed(t *testing.T, s Seam, edges ...Edge) {
	t.Helper()
	for _, e := range edges {
		for pi := range p.Panels {
			panel := &p.Panels[pi]
			for _, own := range panel.Edges {
				if &own.Line[0] != &e.Line[0] || panel.Copies > p.Copies {
					continue
				}
				for _, at := range []float64{0, 0.5, 1} {
					q := panel.Surface.Lift(geom.At(e.Line, at*e.Length))
					if d := distToLine(s.Line, q); d > 0.01 {
						t.Errorf("%s seam %d: %s lies %.3f mm off it", p.Name, s.Number, panel.Label, d)
					}
				}
			}
		}
	}
}

func distToLine(line []r3.Vec, p r3.Vec) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(line); i++ {
		ab := r3.Sub(line[i+1], line[i])
		u := min(max(r3.Dot(r3.Sub(p, line[i]), ab)/r3.Dot(ab, ab), 0), 1)
		best = min(best, geom.Dist(p, r3.Add(line[i], r3.Scale(u, ab))))
	}
	return best
}
