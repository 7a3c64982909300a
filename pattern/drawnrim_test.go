package pattern_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

func drawnRim(e pattern.Edge) bool { return e.Drawn }

// roundShell are the places of a shell, at so many angles, where its level is
// that of a curve over how far forward it stands.
func roundShell(t *testing.T, l *geom.Locator, level func(z float64) float64, n int) []r3.Vec {
	t.Helper()
	var out []r3.Vec
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
		y := level(0)
		var p r3.Vec
		for range 60 {
			from := r3.Vec{Y: y}
			d, _, ok := l.Hit(from, r3.Vec{X: s, Z: c})
			if !ok {
				t.Fatalf("the shell has nothing at %.0f mm", y)
			}
			p = r3.Add(from, r3.Scale(d, r3.Vec{X: s, Z: c}))
			if next := level(p.Z); math.Abs(next-y) < 1e-9 {
				break
			} else {
				y = next
			}
		}
		out = append(out, p)
	}
	return out
}

// seenOf are the places that an eye sees, from forward to backward.
func seenOf(l *geom.Locator, eye r3.Vec, pts []r3.Vec) []r3.Vec {
	var out []r3.Vec
	for _, p := range pts {
		if d, _, ok := l.Hit(eye, r3.Unit(r3.Sub(p, eye))); ok && math.Abs(d-geom.Dist(eye, p)) < 0.01 && p.X > 0 {
			out = append(out, p)
		}
	}
	return out
}

// marked are places that a maker would mark on a line, some n of them: its ends,
// where it turns sharply as an eye sees it (corners), and evenly between.
func marked(eye r3.Vec, pts []r3.Vec, n int) (out []r3.Vec, corner []bool) {
	seen := make([]r3.Vec, len(pts))
	length := 0.0
	for i, p := range pts {
		seen[i] = r3.Unit(r3.Sub(p, eye))
		if i > 0 {
			length += geom.Dist(seen[i-1], seen[i])
		}
	}
	since := 0.0
	for i, p := range pts {
		turns := i > 0 && i+1 < len(pts) && r3.Dot(r3.Unit(r3.Sub(seen[i], seen[i-1])), r3.Unit(r3.Sub(seen[i+1], seen[i]))) < 0.99
		if i > 0 {
			since += geom.Dist(seen[i-1], seen[i])
		}
		if i == 0 || i == len(pts)-1 || turns || since >= length/float64(n) {
			out, corner, since = append(out, p), append(corner, turns), 0
		}
	}
	return out, corner
}

// A rim known in space, drawn on its left half through a lens beside the head,
// comes back on the panels where it was, on both halves, from the front's middle
// line to the back's.
func TestDrawn_rimComesBack(t *testing.T) {
	for i := range max(*bodies/25, 1) {
		form := drawBody(t, i)
		for _, order := range []string{"helm", "gores", "strips"} {
			t.Run(fmt.Sprintf("%d/%s", i, order), func(t *testing.T) {
				o := sweepOrder(order)
				plain, _, err := madeFor(o, templates.FS, form)
				if err != nil {
					t.Fatal(err)
				}
				shell := wholeShell(plain)
				l := geom.NewLocator(shell)
				low := math.Inf(1)
				for _, v := range shell.V {
					low = min(low, v.Y)
				}
				level := func(z float64) float64 { return low + 35 - 0.12*z + 0.0006*z*z }
				eye := r3.Vec{X: 1480, Y: 25, Z: 70}
				truth := roundShell(t, l, level, 5000)
				points, corner := marked(eye, seenOf(l, eye, truth), 36)
				d := drawnThrough(plain, eye, points)
				d.Corner, d.Kind, d.Name, d.Mirror = corner, pattern.DrawnEdge, "rim", true
				o.Drawn, o.Settings = []pattern.Drawn{d}, withoutHoles(o)
				p, found, err := madeFor(o, templates.FS, form)
				if err != nil {
					t.Fatal(err)
				}
				pattern.CheckPiece(t, p)
				var want, got [][]r3.Vec
				want = append(want, append(truth, truth[0]))
				for _, line := range cutLines(p, drawnRim) {
					if len(line) > 1 {
						got = append(got, line)
					}
				}
				var back [][]r3.Vec // behind the face, whose opening takes the rim away
				for k := range truth {
					if a, b := truth[k], truth[(k+1)%len(truth)]; a.Z < -10 && b.Z < -10 {
						back = append(back, []r3.Vec{a, b})
					}
				}
				if a, b := runsOff(withoutHolesOf(got, p), want), runsOff(back, got); a > 0.2 || b > 0.2 {
					t.Errorf("the rim runs %.3f mm off the curve, the curve %.3f mm off the rim (%v)", a, b, found)
				}
				for _, f := range found {
					if strings.Contains(f.Said, "drawn") {
						t.Errorf("found %v", f)
					}
				}
			})
		}
	}
}

// withoutHolesOf leaves out lines that are holes: of rims there are none.
func withoutHolesOf(lines [][]r3.Vec, p *pattern.Piece) [][]r3.Vec {
	holes := 0
	for _, panel := range p.Panels {
		holes += len(panel.Holes)
	}
	if holes == 0 {
		return lines
	}
	var out [][]r3.Vec
	for _, l := range lines {
		if geom.Dist(l[0], l[len(l)-1]) > 1e-9 {
			out = append(out, l)
		}
	}
	return out
}

// On a limb a straight edge drawn from any side is cut straight through: all of
// the rim lies in the plane of sight through it.
func TestDrawn_limbIsCutStraightThrough(t *testing.T) {
	form := drawBody(t, 1)
	for _, c := range []struct {
		order, name string
		eye         r3.Vec
		at, slope   float64
	}{
		{"vambrace", "rim", r3.Vec{X: 300, Y: 120, Z: 1450}, 0.3, 0.2},
		{"vambrace", "rim", r3.Vec{X: -300, Y: 120, Z: 1450}, 0.75, -0.3},
		{"greave", "lower rim", r3.Vec{X: 1500, Y: 100, Z: 100}, 0.2, 0.3},
		{"greave", "upper rim", r3.Vec{X: 1400, Y: 200, Z: -500}, 0.8, 0.15},
	} {
		t.Run(c.order+" "+c.name, func(t *testing.T) {
			o := sweepOrder(c.order)
			o.Side = body.Left
			plain, _, err := madeFor(o, templates.FS, form)
			if err != nil {
				t.Fatal(err)
			}
			mid, span := middleOf(plain, c.at)
			side := r3.Unit(r3.Cross(r3.Vec{Y: 1}, r3.Sub(c.eye, mid)))
			var pts []r3.Vec
			for k := -4; k <= 4; k++ {
				u := float64(k) * 20
				pts = append(pts, r3.Add(mid, r3.Add(r3.Scale(u, side), r3.Vec{Y: c.slope * u})))
			}
			d := drawnThrough(plain, c.eye, pts)
			d.Kind, d.Name, d.Mirror = pattern.DrawnEdge, c.name, true // mirrored, but there is no other half of an arm
			o.Drawn = []pattern.Drawn{d}
			p, found, err := madeFor(o, templates.FS, form)
			if err != nil {
				t.Fatal(err)
			}
			pattern.CheckPiece(t, p)
			n := r3.Unit(r3.Cross(r3.Sub(pts[0], c.eye), r3.Sub(pts[8], c.eye)))
			worst, angles := 0.0, map[int]bool{}
			for _, line := range cutLines(p, func(e pattern.Edge) bool { return e.Drawn && e.Of == c.name }) { // the other end has the template's own
				for i := 0; i+1 < len(line); i++ {
					for _, q := range []r3.Vec{line[i], geom.Lerp(line[i], line[i+1], 0.5)} {
						worst = max(worst, math.Abs(r3.Dot(n, r3.Sub(q, c.eye))))
						angles[int(math.Round(math.Atan2(q.X-mid.X, q.Z-mid.Z)/math.Pi*6))] = true
					}
				}
			}
			if worst > 0.2 || len(angles) < 12 {
				t.Errorf("the rim runs %.3f mm off the plane of sight, over %d of 12 hours round (%v)", worst, len(angles), found)
			}
			low, high := levelsOf(p)
			if short := span - (high - low); short < 5 {
				t.Errorf("the piece is %.1f mm shorter than without the edge", short)
			}
		})
	}
}

// middleOf is the middle of a piece at a share of its height, and that height.
func middleOf(p *pattern.Piece, share float64) (r3.Vec, float64) {
	low, high := levelsOf(p)
	y := low + share*(high-low)
	var sum r3.Vec
	n := 0.0
	for _, s := range geom.Slice(wholeShell(p), r3.Vec{Y: y}, r3.Vec{Y: 1}) {
		sum, n = r3.Add(sum, s[0]), n+1
	}
	return r3.Scale(1/n, sum), high - low
}

// levelsOf are the lowest and the highest level that a piece's outlines reach.
func levelsOf(p *pattern.Piece) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range p.Panels {
		for _, q := range p.Panels[i].Outline {
			y := p.Panels[i].Surface.Lift(q).Y
			low, high = min(low, y), max(high, y)
		}
	}
	return low, high
}

// rimAt draws an edge on the left of the head, straight as the lens sees it.
func rimAt(p *pattern.Piece, low, front, back float64) pattern.Drawn {
	var pts []r3.Vec
	for k := range 9 {
		u := float64(k) / 8
		pts = append(pts, r3.Vec{Y: low + front + u*(back-front), Z: 170 - 330*u})
	}
	d := drawnThrough(p, r3.Vec{X: 1500, Y: 20, Z: 20}, pts)
	d.Kind, d.Name, d.Mirror = pattern.DrawnEdge, "rim", true
	return d
}

func TestDrawn_whatIsSaidOfEdges(t *testing.T) {
	form := drawBody(t, 0)
	o := sweepOrder("helm")
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	low, _ := levelsOf(plain)
	past := rimAt(plain, low, 12, -7)
	named := rimAt(plain, low, 20, 20)
	named.Name = "neck rin"
	top := named
	top.Name = "top"
	far := rimAt(plain, low, -30, -50)
	away := rimAt(plain, low, 900, 900)
	behind := rimAt(plain, low, 30, 20)
	for i, r := range behind.Rays {
		behind.Rays[i] = r3.Scale(-1, r)
	}
	half := rimAt(plain, low, 30, 20)
	half.Rays = half.Rays[:5]
	short := named
	short.Name, short.Rays = "Neck Rim", named.Rays[:1]
	for what, c := range map[string]struct {
		drawn []pattern.Drawn
		said  string
	}{
		"past the rim":  {[]pattern.Drawn{past}, `mm above the drawn edge "rim"; there its own rim stays. Set "chin drop" to`},
		"past a limit":  {[]pattern.Drawn{far}, `"chin drop" makes the piece longer, but goes to 20 mm only: set that, and draw the curve at least 35 mm higher`},
		"a slip":        {[]pattern.Drawn{named}, `did you mean "neck rim"?`},
		"a closed end":  {[]pattern.Drawn{top}, "it has rim, lower rim, neck rim"},
		"beside":        {[]pattern.Drawn{away}, "none of its curve lies on the piece"},
		"one point":     {[]pattern.Drawn{short}, "too few points: 1; 2 are the least"},
		"the same rim":  {[]pattern.Drawn{rimAt(plain, low, 20, 20), rimAt(plain, low, 30, 30)}, "drawn twice"},
		"behind":        {[]pattern.Drawn{behind}, "the piece lies behind the lens"},
		"half way":      {[]pattern.Drawn{half}, "before the outline of the piece; from there it is carried on level"},
		"lens too near": {[]pattern.Drawn{near(plain)}, "from the middle of the piece"},
	} {
		o.Drawn = c.drawn
		_, found, err := madeFor(o, templates.FS, form)
		if said := fmt.Sprint(found, err); !strings.Contains(said, c.said) {
			t.Errorf("%s: %s; want it to say %q", what, said, c.said)
		}
	}
}

func near(p *pattern.Piece) pattern.Drawn {
	d := rimAt(p, 0, 0, 0)
	d.Eye = p.Frame.Point(r3.Vec{X: 150})
	return d
}
