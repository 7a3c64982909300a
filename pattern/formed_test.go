package pattern

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
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

// cutTo cuts a plan's shell into raw panels.
func cutTo(p plan, l *limit) (*cutter, error) {
	s, err := newShell(p, l)
	if err != nil {
		return nil, err
	}
	return s.cut((&builder{thickness: 6, k: 0.5}).hinge)
}

func ball(r float64) *limit {
	return newLimit(lathe(0, r, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) }), plain(0), false)
}

// A gore of a ball: its seams are quarters of a great circle, its foot a part of
// one, whatever it is laid flat like.
func TestMake_formedGoresOfABall(t *testing.T) {
	const r = 100.0
	for _, n := range []int{4, 6, 8} {
		p := build(t, formedGores(n), ball(r))
		if p.Count() != n || len(p.Panels) != 1 {
			t.Fatalf("%d panels, %d of them different; want %d that are alike", p.Count(), len(p.Panels), n)
		}
		for _, e := range p.Panels[0].Edges {
			want := 2 * math.Pi * r / float64(n)
			if e.Seam > 0 {
				want = math.Pi * r / 2
			}
			if math.Abs(e.Length-want) > 0.1 { // chords for arcs
				t.Errorf("%d gores: an edge of %.3f mm, want %.3f", n, e.Length, want)
			}
		}
	}
}

// Gores of a ball between the equator and a latitude, laid flat with their edges
// at their lengths. Source: energy and strain of the panels "g45_60", "g45_85"
// and "g30_85" that three solvers agreed on (a prototype of augmented
// Lagrangian, of lagged rotations and of Newton), told to a tenth of a
// per cent.
func TestMake_formedGoresHaveTheKnownStrain(t *testing.T) {
	const r = 100.0
	for _, g := range []struct {
		n                       int
		latitude                float64
		energy, stretch, gather float64
	}{{8, 60, 7.246e-4, 0.034, 0.028}, {8, 85, 7.133e-4, 0.038, 0.026}, {12, 85, 1.914e-4, 0.022, 0.013}} {
		p := formedGores(g.n)
		top := r * math.Sin(g.latitude*math.Pi/180)
		p.rings, p.capped = append(p.rings, ringPlan{name: "top", level: top, section: top}), ""
		p.bands[0].to = 1
		c, err := cutTo(p, ball(r))
		if err != nil {
			t.Fatal(err)
		}
		f := c.panels[0].formed
		area := 2 * math.Pi * r * top / float64(g.n) // Archimedes
		if e := f.Energy / area; math.Abs(e/g.energy-1) > 0.02 {
			t.Errorf("%d gores to %g°: an energy of %.4g for each mm², want %.4g", g.n, g.latitude, e, g.energy)
		}
		if math.Abs(f.Stretch.P99-g.stretch) > 0.001 || math.Abs(f.Gather.P99-g.gather) > 0.001 {
			t.Errorf("%d gores to %g°: 99 %% of it stretch by %.4f and gather by %.4f at most, want %.3f and %.3f", g.n, g.latitude, f.Stretch.P99, f.Gather.P99, g.stretch, g.gather)
		}
	}
}

// In a narrow gore the logarithm of flat over shell is K·w²/8 at its widest.
// Source: the Poisson equation on a strip of width w, Δu = K.
func TestMake_narrowGoreSwells(t *testing.T) {
	const r, n = 100.0, 40
	p := formedGores(n)
	p.rings = []ringPlan{{name: "low", level: -60, section: -60}, {name: "high", level: 60, section: 60}}
	p.bands[0].to, p.capped = 1, ""
	whole := newLimit(lathe(-90, 90, func(y float64) float64 { return math.Sqrt(max(r*r-y*y, 0)) }), plain(0), false)
	c, err := cutTo(p, whole)
	if err != nil {
		t.Fatal(err)
	}
	w := 2 * math.Pi / n
	if u := c.panels[0].formed.Swell; math.Abs(u/(w*w/8)-1) > 0.04 {
		t.Errorf("it swells by %.6f, want %.6f", u, w*w/8)
	}
}

// What bends one way only is not strained: formed, a cylinder and a cone are
// flat to rounding.
func TestMake_formedCylinderAndConeAreExact(t *testing.T) {
	for name, radius := range map[string]func(float64) float64{
		"cylinder": func(float64) float64 { return 60 },
		"cone":     func(y float64) float64 { return 60 - 0.3*y },
	} {
		p := formedGores(3)
		p.rings = append(p.rings, ringPlan{name: "top", level: 90, section: 90})
		p.bands[0].to, p.capped = 1, ""
		c, err := cutTo(p, newLimit(lathe(-10, 110, radius), plain(0), false))
		if err != nil {
			t.Fatal(err)
		}
		for _, panel := range c.panels {
			f := panel.formed
			if f.Stretch.P99 > 1e-9 || f.Gather.P99 > 1e-9 || f.Energy > 1e-12 {
				t.Errorf("%s: stretch %g, gather %g, energy %g mm²", name, f.Stretch.P99, f.Gather.P99, f.Energy)
			}
		}
	}
}

// Between drawn rings a formed band runs smoothly and never beyond them; two
// rings of a cone have a cone between them.
func TestMake_formedBetweenDrawnRings(t *testing.T) {
	circle := func(r float64) *figure {
		var line []r2.Vec
		for i := range figurePoints {
			line = append(line, r2.Scale(r, direction(2*math.Pi*float64(i)/figurePoints)))
		}
		return &figure{line: line, inner: line}
	}
	p := formedGores(3)
	p.rings = []ringPlan{{name: "a", drawn: circle(40)}, {name: "b", level: 50, section: 50, drawn: circle(60)}, {name: "c", level: 100, section: 100, drawn: circle(30)}}
	p.bands[0].to, p.capped = 1, ""
	p.bands = append(p.bands, p.bands[0])
	p.bands[1].from, p.bands[1].to = 1, 2
	out := build(t, p, ball(1))
	for _, panel := range out.Panels {
		for _, v := range panel.Surface.Bent {
			if d := math.Hypot(v.X, v.Z); d < 30-0.5 || d > 60+1e-9 {
				t.Fatalf("a point at %.1f mm stands %.2f mm from the axis; the rings do from 30 to 60 mm", v.Y, d)
			}
		}
	}
	p.rings, p.bands = p.rings[:2], p.bands[:1]
	c, err := cutTo(p, ball(1))
	if err != nil {
		t.Fatal(err)
	}
	if f := c.panels[0].formed; f.Energy > 1e-10 {
		t.Errorf("between two drawn circles: energy %g mm², want none", f.Energy)
	}
}

// A ball in three gores stretches too much; with darts it can be formed. Both
// legs of a dart are as long as each other, which build checks of every seam.
func TestMake_wideGoreTakesADart(t *testing.T) {
	p := formedGores(3)
	p.strain = Material{}.strainLimits()
	out := build(t, p, ball(100))
	for _, panel := range out.Panels {
		if n := len(panel.Edges); n != 7 {
			t.Errorf("%s has %d edges, want 3 of a gore, one of them in two, and 2 of a dart", panel.Label, n)
		}
		if d := panel.Formed.Dart; d == 0 {
			t.Errorf("%s does not say which seam is its dart", panel.Label)
		}
		if s := panel.Formed.Stretch.P95; s > 2*easyStretch {
			t.Errorf("%s must still stretch by %.3f", panel.Label, s)
		}
	}
	if n := len(out.Seams); n != 2 {
		t.Errorf("%d seams, want one between gores and one of darts, as all gores are alike", n)
	}
}

// What no dart makes good is refused, with the place and what would help: a deep
// cup in one panel, and a waist as thin as half of what it joins.
func TestMake_tooMuchToForm(t *testing.T) {
	cup := newLimit(lathe(0, 110, func(y float64) float64 { return 65 * math.Sqrt(max(1-y*y/12100, 0)) }), plain(0), false)
	waist := newLimit(lathe(-61, 61, func(y float64) float64 { return 45 + y*y/80 }), plain(0), false)
	waisted := formedGores(2)
	waisted.rings = []ringPlan{{name: "low", level: -60, section: -60}, {name: "high", level: 60, section: 60}}
	waisted.bands[0].to, waisted.capped = 1, ""
	for name, c := range map[string]struct {
		plan plan
		on   *limit
	}{"cup": {formedGores(1), cup}, "waist": {waisted, waist}} {
		c.plan.strain = Material{}.strainLimits()
		_, err := cutTo(c.plan, c.on)
		if err == nil {
			t.Errorf("%s: was not refused", name)
			continue
		}
		for _, say := range []string{"gore", "cannot be formed in one piece", "near level", "more seams"} {
			if !strings.Contains(err.Error(), say) {
				t.Errorf("%s: %q does not say %q", name, err, say)
			}
		}
	}
}
