package pattern_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func closed(pts []r3.Vec) []r3.Vec { return append(append([]r3.Vec(nil), pts...), pts[0]) }

func image(pts []r3.Vec) []r3.Vec {
	var out []r3.Vec
	for _, q := range pts {
		out = append(out, r3.Vec{X: -q.X, Y: q.Y, Z: q.Z})
	}
	return out
}

// A face opening drawn 4 mm off the middle is cut in the middle, and it is said
// that its sides differ by 8 mm; asked for as seen, it is cut where it was drawn.
func TestDrawn_unevenOpening(t *testing.T) {
	form := drawBody(t, 3)
	o := sweepOrder("gores")
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	l := geom.NewLocator(wholeShell(plain))
	drawn := drawnThrough(plain, r3.Vec{X: -40, Y: 30, Z: 1500}, onShell(t, l, ellipse(4, 10, 52, 40, 40)))
	drawn.Name = "face"
	for _, asSeen := range []bool{false, true} {
		drawn.AsSeen = asSeen
		o.Drawn = []pattern.Drawn{drawn}
		p, found, err := madeFor(o, templates.FS, form)
		if err != nil {
			t.Fatal(err)
		}
		pattern.CheckPiece(t, p)
		at, within := 0.0, 0.3
		if asSeen {
			at, within = 4, 0.2
		}
		want := [][]r3.Vec{closed(onShell(t, l, ellipse(at, 10, 52, 40, 1200)))}
		got := cutLines(p, opened)
		if a, b := runsOff(got, want), runsOff(want, got); a > within || b > within {
			t.Errorf("as seen %v: the opening runs %.3f mm off, the curve %.3f mm", asSeen, a, b)
		}
		if said := fmt.Sprint(found); strings.Contains(said, "differ by up to 8") == asSeen {
			t.Errorf("as seen %v: found %s", asSeen, said)
		}
		paired := 0
		for _, panel := range p.Panels {
			paired += panel.Flipped
		}
		if (paired < 3) != asSeen {
			t.Errorf("as seen %v: %d panels are cut turned over", asSeen, paired)
		}
	}
}

// Two eye slots, drawn unlike, are cut alike: half way between.
func TestDrawn_pairOfOpenings(t *testing.T) {
	form := drawBody(t, 2)
	o := sweepOrder("helm")
	o.Settings = withoutHoles(o)
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	l := geom.NewLocator(wholeShell(plain))
	eye := r3.Vec{X: 20, Y: 40, Z: 1500}
	left := drawnThrough(plain, eye, onShell(t, l, ellipse(36, 30, 24, 10, 30)))
	right := drawnThrough(plain, eye, onShell(t, l, ellipse(-40, 33, 24, 10, 30)))
	left.Name, right.Name = "eye slot", "Eye slot"
	o.Drawn = []pattern.Drawn{left, right}
	p, found, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, p)
	truth := onShell(t, l, ellipse(38, 31.5, 24, 10, 1200))
	want := [][]r3.Vec{closed(truth), closed(image(truth))}
	got := cutLines(p, opened)
	if a, b := runsOff(got, want), runsOff(want, got); a > 0.3 || b > 0.3 {
		t.Errorf("the slots run %.3f mm off the mean, the mean %.3f mm off them", a, b)
	}
	if !strings.Contains(fmt.Sprint(found), `drawn opening "eye slot" differ by up to`) {
		t.Errorf("found %v", found)
	}
}

// What is drawn on one arm is cut on that arm; of a pair it may be drawn on
// either.
func TestDrawn_windowOnALimb(t *testing.T) {
	form := drawBody(t, 4)
	madeOf := func(side body.Side, drawn ...pattern.Drawn) *pattern.Piece {
		o := sweepOrder("vambrace")
		o.Side, o.Drawn = side, drawn
		p, found, err := madeFor(o, templates.FS, form)
		if err != nil {
			t.Fatal(err)
		}
		pattern.CheckPiece(t, p)
		if len(drawn) > 0 && !strings.Contains(fmt.Sprint(found), `no opening "window"`) {
			t.Errorf("found %v", found)
		}
		return p
	}
	for _, side := range []body.Side{body.Left, body.Right} {
		plain := madeOf(side)
		l := geom.NewLocator(wholeShell(plain))
		mid, _ := middleOf(plain, 0.3) // below the crook of the arm
		place := func(n int) []r3.Vec {
			var pts []r2.Vec
			for _, q := range ellipse(mid.X, mid.Y, 15, 25, n) {
				pts = append(pts, q)
			}
			return onShell(t, l, pts)
		}
		d := drawnThrough(plain, r3.Vec{X: 60, Y: 100, Z: 1500}, place(30))
		d.Name = "window"
		want := [][]r3.Vec{closed(place(1200))}
		own := cutLines(madeOf(side, d), opened)
		if a, b := runsOff(own, want), runsOff(want, own); a > 0.2 || b > 0.2 {
			t.Errorf("%v: the window runs %.3f mm off, the curve %.3f mm", side, a, b)
		}
		if side == body.Right {
			want = [][]r3.Vec{image(want[0])}
		}
		pair := cutLines(madeOf(body.Both, d), opened)
		if a, b := runsOff(pair, want), runsOff(want, pair); a > 0.2 || b > 0.2 {
			t.Errorf("a pair, drawn on the %v: the window runs %.3f mm off, the curve %.3f mm", side, a, b)
		}
	}
}

// A rim drawn from the front, uneven by a slope, is made even, ends where it was
// drawn, and what stands beside it is said to be a step.
func TestDrawn_rimFromTheFront(t *testing.T) {
	form := drawBody(t, 5)
	o := sweepOrder("helm")
	o.Settings = withoutHoles(o)
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	low, _ := levelsOf(plain)
	var pts []r3.Vec
	for k := -5; k <= 5; k++ {
		x := float64(k) * 20
		pts = append(pts, r3.Vec{X: x, Y: low + 40 + 0.05*x})
	}
	d := drawnThrough(plain, r3.Vec{X: 0, Y: low + 40, Z: 1500}, pts)
	d.Kind, d.Name = pattern.DrawnEdge, "rim"
	o.Drawn = []pattern.Drawn{d}
	p, found, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, p)
	said := fmt.Sprint(found)
	if !strings.Contains(said, `drawn edge "rim" differ by up to`) || !strings.Contains(said, "has a step") {
		t.Errorf("found %s", said)
	}
	worst, front, steps := 0.0, 0, 0
	for _, line := range cutLines(p, drawnRim) {
		for _, q := range line {
			if math.Abs(q.Y-low-40) < 8 && q.Z > 0 {
				front++
				worst = max(worst, math.Abs(q.Y-low-40))
			} else {
				steps++
			}
			if q.Z < -60 {
				t.Fatalf("the rim is cut behind, at %v", q)
			}
		}
	}
	if worst > 0.3 || front < 20 || steps == 0 {
		t.Errorf("the rim runs %.2f mm off the mean level, at %d places; %d in its steps", worst, front, steps)
	}
}

func TestDrawn_whatIsSaidOfOpenings(t *testing.T) {
	form := drawBody(t, 0)
	o := sweepOrder("helm")
	o.Where = "costume.yaml:5"
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	l := geom.NewLocator(wholeShell(plain))
	eye := r3.Vec{Y: 30, Z: 1500}
	slot := cutLines(plain, opened)[0]
	draw := func(name string, pts []r2.Vec) pattern.Drawn {
		d := drawnThrough(plain, eye, onShell(t, l, pts))
		d.Name = name
		return d
	}
	var round []r3.Vec
	for _, q := range ellipse(0, 20, 260, 300, 20) {
		round = append(round, r3.Vec{X: q.X, Y: q.Y})
	}
	around := drawnThrough(plain, eye, round)
	around.Name = "eye slot"
	at := middle2(slot)
	for what, c := range map[string]struct {
		drawn pattern.Drawn
		said  string
	}{
		"tiny":           {draw("window", ellipse(20, 60, 0.4, 3, 8)), `costume.yaml:9: helm: opening "window": it is only 0.8 mm across`},
		"all round":      {around, `opening "eye slot": its curve runs round the piece without touching it`},
		"over the slot":  {draw("visor", ellipse(at.X, at.Y, 15, 40, 20)), `costume.yaml:9: helm: opening "visor" overlaps the opening "eye slot"`},
		"round the slot": {draw("visor", ellipse(0, at.Y, 70, 50, 20)), `write "opening: eye slot"`},
	} {
		o.Drawn = []pattern.Drawn{c.drawn}
		_, _, err := madeFor(o, templates.FS, form)
		if said := fmt.Sprint(err); !strings.Contains(said, c.said) || strings.Contains(said, ":5:") {
			t.Errorf("%s: %s; want it to say %q", what, said, c.said)
		}
	}
}

func middle2(line []r3.Vec) r2.Vec {
	var at r2.Vec
	for _, p := range line {
		at = r2.Add(at, r2.Vec{X: p.X / float64(len(line)), Y: p.Y / float64(len(line))})
	}
	return at
}

// The sizes of an opening that is drawn instead are not among the settings that
// the piece was made with, and it says where it was drawn.
func TestDrawn_settingsOfAnOpeningDrawnInstead(t *testing.T) {
	form := drawBody(t, 0)
	o := sweepOrder("gores")
	plain, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	d := drawnThrough(plain, r3.Vec{Y: 10, Z: 1500}, onShell(t, geom.NewLocator(wholeShell(plain)), ellipse(0, 10, 52, 45, 30)))
	d.Name, d.On = "face", "photos/head-front.jpg"
	o.Drawn = []pattern.Drawn{d}
	p, _, err := madeFor(o, templates.FS, form)
	if err != nil {
		t.Fatal(err)
	}
	names := func(p *pattern.Piece) (all []string) {
		for _, s := range p.Settings {
			all = append(all, s.Name)
		}
		return all
	}
	gone := slices.DeleteFunc(names(plain), func(n string) bool { return slices.Contains(names(p), n) })
	if fmt.Sprint(gone) != "[face width brow edge]" {
		t.Errorf("%v are not listed, want the face's width and edge", gone)
	}
	if said := fmt.Sprint(p.Notes); !strings.Contains(said, `Cut as drawn on photos/head-front.jpg: opening "face".`) {
		t.Errorf("the notes are %s", said)
	}
}
