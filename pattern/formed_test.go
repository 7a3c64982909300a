package pattern

import (
	"math"
	"testing"
)

// formedGores is a plan of n formed gores that meet in a point.
func formedGores(n int) plan {
	var seams []float64
	for i := range n {
		seams = append(seams, 2*math.Pi*float64(i)/float64(n))
	}
	return plan{
		rings:  []ringPlan{{name: "rim"}},
		bands:  []bandPlan{{name: "gore", formed: true, seams: seams}},
		capped: "point",
	}
}

// Half a dome in one panel stretches too much; with a dart it can be formed, and
// both legs of the dart are as long as each other.
func TestMake_formedHalfDomeTakesADart(t *testing.T) {
	const r = 100.0
	l := newLimit(lathe(0, r, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) }), plain(0), false)
	p := formedGores(3)
	p.strain = Material{}.strainLimits()
	out := build(t, p, l)
	for _, panel := range out.Panels {
		t.Log(panel.Formed, len(panel.Edges), len(out.Seams))
	}
}

func TestMake_formedGoresOfASphere(t *testing.T) {
	const r = 100.0
	l := newLimit(lathe(0, r, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) }), plain(0), false)
	for _, n := range []int{4, 6, 8} {
		p := build(t, formedGores(n), l)
		if len(p.Panels) != n || len(p.Seams) != n {
			t.Fatalf("%d panels and %d seams; want %d of each", len(p.Panels), len(p.Seams), n)
		}
		t.Log(n, len(p.Panels[0].Surface.T), p.Panels[0].Edges[0].Length, p.Panels[0].Edges[1].Length)
	}
}
