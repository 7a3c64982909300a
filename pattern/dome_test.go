package pattern

import (
	"math"
	"testing"

	"tasset/internal/geom"
)

// domePlan is a tube's rim with a dome over it, of three seams.
func domePlan(d dome, formed bool) plan {
	third := 2 * math.Pi / 3
	return plan{
		rings:  []ringPlan{{name: "low"}, {name: "rim", level: 30, section: 30}},
		bands:  []bandPlan{{name: "wall", from: 0, to: 1, seams: []float64{0, third, 2 * third}}, {name: "dome", from: 1, to: 1, formed: formed, seams: []float64{0, third, 2 * third}}},
		capped: "dome", domes: [2]*dome{&d},
	}
}

// Over a round tube a dome of n bands is n frusta: ring i has the radius and the
// level of the ellipse with half axes r and h / sin(acos(plate)).
// Source: the ellipse's equation; a frustum's rim is 2π times its radius.
func TestMake_domeRingsLieOnAnEllipse(t *testing.T) {
	const r, height, share = 60.0, 40.0, 0.3
	at := 30 + height
	tube := newLimit(lathe(-50, 30+1e-6, func(float64) float64 { return r }), plain(0), false)
	p, err := domePlan(dome{at: &at, rings: 3, plate: share}, false).domed(tube.low, tube.high)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.bands) != 4 || len(p.rings) != 5 || p.capped != "plate" {
		t.Fatalf("%d bands, %d rings, capped %q", len(p.bands), len(p.rings), p.capped)
	}
	s, err := newShell(p, tube)
	if err != nil {
		t.Fatal(err)
	}
	rise := height / math.Sqrt(1-share*share)
	for i, ring := range s.rings[1:] {
		radius := geom.Perimeter(s.line(ring)) / (2 * math.Pi)
		z := ring.level - 30
		if e := math.Hypot(radius/r, z/rise); math.Abs(e-1) > 1e-3 {
			t.Errorf("ring %d: radius %.3f mm at %.3f mm, %.4f of the ellipse", i, radius, z, e)
		}
	}
	out := build(t, p, tube)
	if n := out.Count(); n != 13 {
		t.Errorf("%d panels, want 3 of each of 4 bands and a plate", n)
	}
}

// On an axis that runs the other way a dome is the same one, upside down.
func TestPlan_domeTurned(t *testing.T) {
	at := 70.0
	upright, err := domePlan(dome{at: &at, rings: 3, plate: 0.3}, true).domed(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	p := domePlan(dome{at: &at, rings: 3, plate: 0.3}, true)
	p.turnAcross()
	turned, err := p.domed(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	n := len(upright.rings)
	if len(turned.rings) != n || len(turned.bands) != len(upright.bands) || !turned.base {
		t.Fatalf("%d rings and %d bands, base %v; upright %d and %d", len(turned.rings), len(turned.bands), turned.base, n, len(upright.bands))
	}
	for i, r := range turned.rings {
		if u := upright.rings[n-1-i]; math.Abs(r.level+u.level) > 1e-9 {
			t.Errorf("ring %d lies at %.3f mm; upright its image lies at %.3f", i, r.level, u.level)
		}
	}
	for i, b := range turned.bands {
		if b.from != i || b.to != i+1 || b.name != upright.bands[len(upright.bands)-1-i].name {
			t.Errorf("band %d is %q from ring %d to %d", i, b.name, b.from, b.to)
		}
	}
}

// A formed dome follows the ellipse between its rings too.
func TestMake_formedDomeIsRound(t *testing.T) {
	const r = 60.0
	at := 30 + r*math.Sin(math.Acos(0.4))
	tube := newLimit(lathe(-50, 30+1e-6, func(float64) float64 { return r }), plain(0), false)
	p, err := domePlan(dome{at: &at, rings: 1, plate: 0.4}, true).domed(tube.low, tube.high)
	if err != nil {
		t.Fatal(err)
	}
	out := build(t, p, tube)
	for _, panel := range out.Panels {
		if panel.Formed == nil {
			continue
		}
		for _, v := range panel.Surface.Bent { // a ball on the tube's end
			if d := math.Sqrt(v.X*v.X + v.Z*v.Z + (v.Y-30)*(v.Y-30)); math.Abs(d-r) > 0.15 {
				t.Fatalf("a point of the dome is %.3f mm from its middle, want %.0f", d, r)
			}
		}
	}
}

// A dome at both ends, the lower one upside down.
func TestMake_domeUnder(t *testing.T) {
	low, high := -20.0, 70.0
	tube := newLimit(lathe(-50, 30+1e-6, func(float64) float64 { return 60 }), plain(0), false)
	p := domePlan(dome{at: &high, rings: 2, plate: 0.4}, false)
	p.domes[1], p.base = &dome{at: &low, rings: 2, plate: 0.5}, true
	p, err := p.domed(tube.low, tube.high)
	if err != nil {
		t.Fatal(err)
	}
	out := build(t, p, tube)
	if n := out.Count(); n != 17 {
		t.Errorf("%d panels, want 3 of each of 5 bands and two plates", n)
	}
	if _, err := domePlan(dome{at: &low}, false).domed(tube.low, tube.high); err == nil {
		t.Error("a dome below its ring was not refused")
	}
}
