package pattern

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// tubeOfLames is a run of lames round a straight tube of radius r and height
// 200 mm, in foam of 5 mm.
func tubeOfLames(t *testing.T, r float64, l lamePlan) (plan, []*shell) {
	t.Helper()
	l.name, l.from, l.to, l.band = "lame", 0, 1, bandPlan{seams: []float64{math.Pi}}
	p := plan{
		rings: []ringPlan{{name: "low"}, {name: "high", level: 200, section: 200}},
		lames: &l,
		fold:  func(float64, string) string { return "grooved inside" },
	}
	if err := p.check(); err != nil {
		t.Fatal(err)
	}
	if err := p.meetLames(); err != nil {
		t.Fatal(err)
	}
	mesh := lathe(-60, 260, func(float64) float64 { return r })
	shells, err := p.lameShells(nil, 5+slide, func(lift func(float64) float64) *limit {
		return newLimit(mesh, func(_, at r3.Vec) float64 { return lift(at.Y) }, false)
	})
	if err != nil {
		t.Fatal(err)
	}
	return p, shells
}

// edgesOfLame are the levels and radii of a lame's lower and upper rim.
func edgesOfLame(s *shell) (low, high [2]float64) {
	of := func(r ring) [2]float64 {
		return [2]float64{r.level, geom.Perimeter(s.line(r)) / (2 * math.Pi)}
	}
	return of(s.rings[0]), of(s.rings[1])
}

// The lames of a tube show equal heights, lie over each other by the overlap,
// and run parallel there, one thickness and the slide apart: the closed form of
// lines of one slope.
func TestLames_ofATube(t *testing.T) {
	for _, upper := range []bool{true, false} {
		p, shells := tubeOfLames(t, 60, lamePlan{count: 5, overlap: 20, upperOut: upper})
		if len(shells) != 5 {
			t.Fatalf("%d lames, want 5", len(shells))
		}
		for i := range 4 {
			lowerLow, lowerHigh := edgesOfLame(shells[i])
			upperLow, upperHigh := edgesOfLame(shells[i+1])
			if got := lowerHigh[0] - upperLow[0]; math.Abs(got-20) > 1e-9 {
				t.Errorf("lame %d lies %.3f mm over the next, want 20", i+1, got)
			}
			shows, want := upperLow[0]-lowerLow[0], 40.0
			if !upper {
				shows = upperHigh[0] - lowerHigh[0]
			}
			if math.Abs(shows-want) > 1e-9 {
				t.Errorf("lame %d shows %.3f mm, want %.0f", i+1, shows, want)
			}
			radius := func(low, high [2]float64, level float64) float64 {
				return low[1] + (level-low[0])/(high[0]-low[0])*(high[1]-low[1])
			}
			for _, level := range []float64{upperLow[0], lowerHigh[0]} {
				apart := radius(upperLow, upperHigh, level) - radius(lowerLow, lowerHigh, level)
				if !upper {
					apart = -apart
				}
				apart /= math.Hypot(1, 6/(40*math.Sqrt(1-6.*6/40/40)))
				if math.Abs(apart-6) > 0.02 { // the tube has 240 sides
					t.Errorf("at %.0f mm lame %d and the next lie %.3f mm apart, want 6", level, i+1, apart)
				}
			}
		}
		first, _ := edgesOfLame(shells[0])
		_, last := edgesOfLame(shells[4])
		if start, end, _ := p.run(); first[0] != start || last[0] != end {
			t.Errorf("the run goes from %.1f to %.1f mm, want %.1f to %.1f", first[0], last[0], start, end)
		}
	}
}

// A tube of radius r that bends by an angle grows by r·angle on its outer line
// (closed form: the length of an arc), which many lames share.
func TestLames_openLikeAnArc(t *testing.T) {
	const angle = 0.6
	p, shells := tubeOfLames(t, 60, lamePlan{count: 10, overlap: 4, through: angle, upperOut: true})
	r := farthestReach(shells)
	if want := 60 + 6/math.Sqrt(1-0.3*0.3)*(1+4./20); math.Abs(r-want) > 0.03 { // a slope of 6 in 20
		t.Errorf("the lames reach %.3f mm from the middle, want %.3f", r, want)
	}
	if got := 9 * p.lames.opens(r); math.Abs(got-r*angle) > 0.001*r*angle {
		t.Errorf("9 gaps open by %.3f mm, want the arc's %.3f within 0.1 %%", got, r*angle)
	}
}

// Two lames that turn about the middle of their overlap, as rigid bodies, leave
// no gap on the outer line up to the angle that opens says, and one beyond it.
func TestLames_coverUntilTheyOpen(t *testing.T) {
	p, shells := tubeOfLames(t, 60, lamePlan{count: 2, overlap: 20, upperOut: true})
	_, lowerRim := edgesOfLame(shells[0])
	upperRim, _ := edgesOfLame(shells[1])
	middle := (lowerRim[0] + upperRim[0]) / 2
	left := func(angle float64) float64 { // how far the rims still overlap on the outer line, when each turns by half
		s, c := math.Sincos(angle / 2)
		a := middle - upperRim[1]*s + (lowerRim[0]-middle)*c
		b := middle + upperRim[1]*s + (upperRim[0]-middle)*c
		return a - b
	}
	for angle := 0.05; angle < 0.6; angle += 0.01 {
		p.lames.through = angle
		opens := p.lames.opens(upperRim[1])
		if still := left(angle) > 0; math.Abs(opens-20) > 0.05 && still != (opens < 20) {
			t.Errorf("turned by %.2f rad they overlap by %.2f mm, and opens says %.2f mm", angle, left(angle), opens)
		}
	}
}

const sleeve = `format: 1
title: Sleeve
about: A sleeve of lames.
code: SL
governs: [wrist girth]
thickness: 4 mm
settings:
  lames: {unit: count, default: 4, min: 1, max: 12, about: Lames.}
  overlap: {unit: mm, default: 20 mm, min: 0 mm, max: 60 mm, about: Overlap.}
  through: {unit: deg, default: 30 deg, min: 0 deg, max: 180 deg, about: Bend.}
ease: 6 mm
frame: {segment: forearm}
rings:
  - {name: wrist rim, at: wrist + 20 mm}
  - {name: low, at: wrist + 60 mm}
  - {name: high, at: elbow - 60 mm}
  - {name: elbow rim, at: elbow - 20 mm}
bands:
  - {name: cuff, from: wrist rim, to: low}
  - {name: top, from: high, to: elbow rim}
lames: {from: low, to: high, count: lames, overlap: overlap, through: through, over: OVER}
gap: {at: -90 deg, width: 10 mm}
`

func makeSleeve(t *testing.T, text string, settings map[string]Value) (*Piece, []report.Finding) {
	t.Helper()
	set, found, err := Make(context.Background(), []Order{{Name: "sleeve", Template: "sleeve", Side: body.Left, Settings: settings}},
		fstest.MapFS{"sleeve.yaml": {Data: []byte(text)}}, drawnForm(t), Material{K: 0.5, Density: 100})
	if err != nil {
		t.Fatal(err)
	}
	checkPiece(t, &set.Pieces[0])
	return &set.Pieces[0], found
}

func drawnForm(t *testing.T) *body.Form {
	t.Helper()
	s := body.LoadSurvey()
	m, _, err := body.Estimate(s, s.Draw(body.Man, rand.New(rand.NewPCG(1, 0))), nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	return form
}

// On an arm the lames, and the bands that they meet, keep clear of the body and
// of each other: nowhere nearer than their foam is thick.
func TestLames_onAnArm(t *testing.T) {
	for _, over := range []string{"upper over lower", "lower over upper"} {
		p, found := makeSleeve(t, strings.Replace(sleeve, "OVER", over, 1), nil)
		if len(p.Panels) != 6 || p.Through == 0 {
			t.Fatalf("%d panels through %.2f rad, want two bands and four lames", len(p.Panels), p.Through)
		}
		for _, f := range found {
			if strings.Contains(f.Said, "lames") {
				t.Errorf("%s: %s", over, f.Said)
			}
		}
		for i := range p.Panels {
			if l := p.Panels[i].Lame; l > 0 && p.Panels[i].Name != fmt.Sprintf("lame %d", l) {
				t.Errorf("panel %s is called %q, of lame %d", p.Panels[i].Label, p.Panels[i].Name, l)
			}
			for j := range p.Panels {
				if i < j {
					if d := leastBetween(&p.Panels[i].Surface, &p.Panels[j].Surface); d < p.Thickness {
						t.Errorf("%s: %s and %s come within %.2f mm of each other, in foam of %.0f mm", over, p.Panels[i].Name, p.Panels[j].Name, d, p.Thickness)
					}
				}
			}
		}
	}
}

// Thicker foam makes a run weigh as much more as it is thicker, and no more than a
// third over that for standing further out; where it could not, there are fewer
// lames, and that is said with the foam that lets it have all.
func TestLames_doNotGrowInThickFoam(t *testing.T) {
	make := func(thickness float64, u units.Unit) (*Piece, []report.Finding) {
		set, found, err := Make(context.Background(), []Order{{Name: "sabaton", Template: "sabaton", Thickness: thickness, Units: u}}, templates.FS, drawnForm(t), Material{K: 0.5, Density: 100})
		if err != nil {
			t.Fatal(err)
		}
		return &set.Pieces[0], found
	}
	count := func(p *Piece) int {
		n := 0
		for _, panel := range p.Panels {
			n = max(n, panel.Lame)
		}
		return n
	}
	thin, _ := make(4, units.MM)
	for _, mm := range []float64{6, 8, 9.525, 10, 12} {
		u := units.MM
		if mm == 9.525 {
			u = units.Inch
		}
		p, found := make(mm, u)
		if share := p.Weight / thin.Weight / (mm / 4); share > 1.34 {
			t.Errorf("in foam of %g mm it has %.2f times the area that it has in 4 mm", mm, share)
		}
		said := ""
		for _, f := range found {
			if strings.Contains(f.Said, "lames and not") {
				said = f.Said + " " + f.Perhaps
			}
		}
		if fewer := count(p) < 5; fewer != (said != "") {
			t.Errorf("in foam of %g mm it has %d lames of 5; said of it: %q", mm, count(p), said)
		}
		if noted := strings.Contains(strings.Join(p.Notes, " "), "lames and not 5"); noted != (said != "") {
			t.Errorf("in foam of %g mm its page says %q", mm, p.Notes)
		}
		for _, s := range p.Settings {
			if s.Name == "lames" && s.Value != float64(count(p)) {
				t.Errorf("in foam of %g mm it has %d lames and its setting says %g", mm, count(p), s.Value)
			}
		}
		if _, after, ok := strings.Cut(said, "Foam of "); ok {
			foam, _, _ := strings.Cut(after, " lets")
			most, err := units.ParseLength(foam, units.None)
			if p, _ := make(most, u); err != nil || count(p) != 5 {
				t.Errorf("%q: in foam of %g mm it has %d; %v", said, most, count(p), err)
			}
		}
	}
}

// leastBetween is the least distance of one surface's points from the other.
func leastBetween(a, b *Surface) float64 {
	least := math.Inf(1)
	for _, pair := range [][2]*Surface{{a, b}, {b, a}} {
		near := geom.NewLocator(geom.Mesh{V: pair[1].Bent, T: pair[1].T})
		for _, p := range pair[0].Bent {
			d, _ := near.Distance(p)
			least = min(least, math.Abs(d)) // the sign is for closed surfaces
		}
	}
	return least
}

// A run that opens further than it overlaps says so, and what it names mends it.
func TestLames_sayWhatWouldCover(t *testing.T) {
	text := strings.Replace(sleeve, "OVER", "upper over lower", 1)
	gaps := func(settings map[string]Value) string {
		_, found := makeSleeve(t, text, settings)
		for _, f := range found {
			if strings.Contains(f.Said, "leave a gap") {
				return f.Said + " " + f.Perhaps
			}
		}
		return ""
	}
	through := Value{Number: math.Pi / 2, Typed: "90 deg"}
	said := gaps(map[string]Value{"through": through, "overlap": {Number: 10, Typed: "10 mm"}})
	var over, count, bend float64
	if _, err := fmt.Sscanf(said[strings.Index(said, "Set "):], "Set overlap to %f mm, or lames to %f, or through to the %f° through which they cover.", &over, &count, &bend); err != nil {
		t.Fatalf("%q: %v", said, err)
	}
	for _, mend := range []map[string]Value{
		{"through": through, "overlap": {Number: over + 1}}, // it stands out more, too
		{"through": through, "overlap": {Number: 10}, "lames": {Number: count}},
		{"through": {Number: bend * math.Pi / 180}, "overlap": {Number: 10}},
	} {
		if said := gaps(mend); said != "" {
			t.Errorf("%v does not mend it: %s", mend, said)
		}
	}
}

// Neighbouring lames have each rivet at one place; straps are marked on every
// lame and as long as the run's parts that they join and what it grows by.
func TestLames_hangTogether(t *testing.T) {
	text := strings.Replace(sleeve, "OVER}", "upper over lower, pivot: true}", 1)
	p, _ := makeSleeve(t, text, nil)
	upwards := slices.Clone(p.Panels)
	height := func(p Panel) float64 { return p.Surface.Lift(geom.Centroid(p.Outline)).Y }
	slices.SortFunc(upwards, func(a, b Panel) int { return cmp.Compare(height(a), height(b)) })
	at := map[string][]r3.Vec{}
	for i := range upwards {
		for _, m := range upwards[i].Marks {
			if strings.HasPrefix(m.Text, "rivet") {
				at[m.Text] = append(at[m.Text], upwards[i].Surface.Lift(geom.Centroid(m.Line)))
			}
		}
	}
	if len(at) != 5 { // the gap takes one side
		t.Errorf("rivets %v, want one for each of the joints of two bands and four lames", at)
	}
	for name, places := range at {
		if len(places) != 2 {
			t.Fatalf("%s is marked at %v, want it on two parts", name, places)
		}
		apart := r3.Sub(places[1], places[0]) // straight out to the side
		if math.Abs(apart.Y) > 0.01 || math.Abs(apart.Z) > 0.1 || apart.X < p.Thickness {
			t.Errorf("%s stands %v further out on the upper part; want it straight out, by a thickness or more", name, apart)
		}
	}
	p, _ = makeSleeve(t, strings.Replace(sleeve, "OVER}", "upper over lower}", 1), nil)
	if len(p.Straps) != 3 {
		t.Fatalf("%d straps, want 3: %+v", len(p.Straps), p.Straps)
	}
	for _, s := range p.Straps {
		if s.Length <= s.Path || s.Path < 60 {
			t.Errorf("%+v", s)
		}
		patchesOf(t, p, s)
	}
}

// patchesOf are the places of a strap's patches on four lames and two bands, and
// the way that one looks; each must lie inside its panel.
func patchesOf(t *testing.T, p *Piece, s Strap) (places []r3.Vec, out r3.Vec) {
	t.Helper()
	said := fmt.Sprintf("strap %d, inside", s.Number)
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, m := range panel.Marks {
			if m.Text != said {
				continue
			}
			at, normal := panel.Surface.LiftWithNormal(geom.Centroid(m.Line))
			places, out = append(places, at), normal
			for _, q := range m.Line {
				if !panel.Covers(q) {
					t.Errorf("%s: a corner of the patch of %s lies outside the panel", panel.Label, said)
				}
			}
		}
	}
	if len(places) != 6 {
		t.Fatalf("%s is marked %d times, want it on four lames and two bands", said, len(places))
	}
	return places, out
}

// Angles of drawn rings are counted about their own middle, so lames round
// one middle have their straps one below the other, to a lame's lift, even where
// the limb that they hang before ends or stands aside.
func TestLames_drawnAsideHangStraight(t *testing.T) {
	text := strings.NewReplacer("OVER", "upper over lower", "gap: {at: -90 deg, width: 10 mm}", "span: {from: -40 deg, to: 90 deg}").Replace(sleeve)
	for i, ring := range []string{"wrist + 20 mm", "wrist + 60 mm", "elbow - 60 mm", "elbow - 20 mm"} {
		wide := 240 + 10*i // else the lames would all be cut from one template
		text = strings.Replace(text, "at: "+ring+"}", fmt.Sprintf("at: %s, size: {width: %d mm, depth: %d mm, x: 40 mm, z: 30 mm}}", ring, wide, wide), 1)
	}
	p, _ := makeSleeve(t, text, nil)
	if len(p.Straps) != 3 {
		t.Fatalf("%d straps, want 3", len(p.Straps))
	}
	for _, s := range p.Straps {
		places, out := patchesOf(t, p, s)
		for _, q := range places[1:] {
			if aside := r3.Dot(r3.Sub(q, places[0]), r3.Unit(r3.Cross(out, r3.Vec{Y: 1}))); math.Abs(aside) > 1 {
				t.Errorf("strap %d goes %.2f mm aside", s.Number, aside)
			}
		}
	}
}

// Each part of a run has the line to which the one over it comes when the run is
// straight: that one's rim stands square over it. And the
// width that is said to be covered is that of the strip between the line and the rim.
func TestLames_markTheEdgesOverThem(t *testing.T) {
	for _, over := range []string{"upper over lower", "lower over upper"} {
		p, _ := makeSleeve(t, strings.Replace(sleeve, "OVER", over, 1), nil)
		marked, sum, n := 0, 0.0, 0.0
		for i := range p.Panels {
			panel := &p.Panels[i]
			for _, m := range panel.Marks {
				if m.Kind != MarkCovered {
					continue
				}
				marked++
				label, ok := strings.CutSuffix(strings.TrimPrefix(m.Text, "this side lies under "), ", when straight")
				j := slices.IndexFunc(p.Panels, func(of Panel) bool { return of.Label == label })
				if !ok || j < 0 {
					t.Fatalf("%s, %s: a line says %q, and should name a panel", over, panel.Label, m.Text)
				}
				middle := geom.Length(m.Line) / 2
				aside := quarterTurn(headingAt(m.Line, geom.Lengths(m.Line), middle))
				left, right := panel.Surface.Lift(r2.Add(geom.At(m.Line, middle), aside)), panel.Surface.Lift(r2.Sub(geom.At(m.Line, middle), aside))
				if towards := meanHeight(&p.Panels[j]) - meanHeight(panel); (left.Y-right.Y)*towards <= 0 {
					t.Errorf("%s, %s: what %s covers lies right of its line", over, panel.Label, label)
				}
				for share := 0.1; share < 0.95; share += 0.1 {
					at, out := panel.Surface.LiftWithNormal(geom.At(m.Line, share*geom.Length(m.Line)))
					off := r3.Sub(nearestOnRim(&p.Panels[j], at), at)
					aside := r3.Norm(r3.Sub(off, r3.Scale(r3.Dot(off, out), out)))
					sum, n = sum+aside, n+1
					if r3.Dot(off, out) < p.Thickness {
						t.Fatalf("%s, %s: the edge of %s stands %.2f mm over its line, in foam of %.0f mm", over, panel.Label, label, r3.Dot(off, out), p.Thickness)
					}
				}
			}
		}
		if marked != 5 {
			t.Errorf("%s: %d edges are marked, want one at each of the joints of two bands and four lames", over, marked)
		}
		if sum/n > 0.4 { // at its rim's own level it would be 0.5 and 1.1 mm
			t.Errorf("%s: the edges stand %.2f mm aside of their lines in the mean; want them square over them", over, sum/n)
		}
		if n := len(p.Chain); n != 6 || slices.ContainsFunc(p.Chain, func(labels []string) bool { return len(labels) != 1 }) {
			t.Errorf("%s: from the innermost on it is %v, want two bands and four lames", over, p.Chain)
		}
		if c := p.Covers; c.Least < 0.95*p.Overlap || c.Most < c.Least || c.Most > 1.3*p.Overlap {
			t.Errorf("%s: lames lie %.1f to %.1f mm over each other on the foam; along the run the overlap is %.1f", over, c.Least, c.Most, p.Overlap)
		}
	}
}

func meanHeight(panel *Panel) (sum float64) {
	for _, v := range panel.Surface.Bent {
		sum += v.Y / float64(len(panel.Surface.Bent))
	}
	return sum
}

// nearestOnRim is the place on a panel's free edges that is nearest to a point.
func nearestOnRim(panel *Panel, to r3.Vec) (out r3.Vec) {
	least := math.Inf(1)
	for _, e := range panel.Edges {
		if e.Kind != Rim {
			continue
		}
		for n := range 2001 {
			v := panel.Surface.Lift(geom.At(e.Line, geom.Length(e.Line)*float64(n)/2000))
			if d := r3.Norm(r3.Sub(v, to)); d < least {
				least, out = d, v
			}
		}
	}
	return out
}
