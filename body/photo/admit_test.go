package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tasset/body"
)

// What cannot be understood is an error that says where, what and what would be
// right, all of it at once.
func TestAdmit(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name  string
		plant func(s []Shot)
		words []string
	}{
		{"a misspelt landmark", func(s []Shot) { mark(&s[0], "left pupil").Name = "left pupl" }, []string{"left pupl", "no landmark of a head", `perhaps "left pupil"`}},
		{"a name without a side", func(s []Shot) { mark(&s[0], "left pupil").Name = "pupil" }, []string{"left pupil or right pupil?", "tasset photo landmarks"}},
		{"a name too short", func(s []Shot) { mark(&s[0], "left pupil").Name = "left eye" }, []string{"left inner eye corner or left outer eye corner?"}},
		{"a head called a body", func(s []Shot) { s[0].View = BodyFront }, []string{"are landmarks of a head, but it is labelled body front; is the view right?"}},
		{"marks of a larger copy", func(s []Shot) { s[0].Width, s[0].Height = 2000, 1500 }, []string{"of its 20 marks are outside the picture", "larger copy"}},
		{"a card of one corner", func(s []Shot) {
			s[0].Card = &Card{Corners: [4]Pixel{{100, 100}, {100, 100}, {300, 400}, {100, 400}}}
		}, []string{"corners 1 and 2 are only 0 pixels apart"}},
		{"a mark outside", func(s []Shot) { mark(&s[0], "left pupil").At.X = 4001 }, []string{"left pupil", "outside the picture", "4000 × 3000"}},
		{"a mark that is no number", func(s []Shot) { mark(&s[0], "left pupil").At.X = nan }, []string{"left pupil", "outside the picture"}},
		{"a mark twice", func(s []Shot) { s[0].Marks = append(s[0].Marks, s[0].Marks[0]) }, []string{s0, "marked twice", "keep one"}},
		{"a ruler of no length", func(s []Shot) { s[0].Ruler.Length = 0 }, []string{"ruler", "length is 0 mm"}},
		{"a ruler's ends together", func(s []Shot) { s[0].Ruler.To = s[0].Ruler.From }, []string{"ruler", "0 pixels apart"}},
		{"a ruler outside", func(s []Shot) { s[0].Ruler.To.Y = -1 }, []string{"ruler", "outside the picture"}},
		{"a card the wrong way round", func(s []Shot) {
			s[0].Card = &Card{Corners: [4]Pixel{{100, 100}, {100, 400}, {300, 400}, {300, 100}}}
		}, []string{"card", "clockwise"}},
		{"no size", func(s []Shot) { s[0].Width = 0 }, []string{"size is not known"}},
		{"a focal length of 2 mm", func(s []Shot) { s[0].F35 = 2 }, []string{"focal length of 2 mm"}},
		{"a distance below 0", func(s []Shot) { s[0].Distance = -1 }, []string{"distance of -1 mm"}},
		{"no scale anywhere", func(s []Shot) { s[0].Ruler, s[1].Ruler, s[2].Ruler = nil, nil, nil }, []string{"No photograph of the head has a ruler or a scale card"}},
		{"nothing marked", func(s []Shot) { s[0].Marks, s[1].Marks, s[2].Marks = nil, nil, nil }, []string{"No photograph of the head can be used", "Only 0 landmarks"}},
		{"two faults", func(s []Shot) { s[0].F35, mark(&s[1], "nose tip").At.Y = 2, -5 }, []string{"focal length of 2 mm", "nose tip"}},
	} {
		_, _, err := Solve(context.Background(), taken(4, c.plant))
		if err == nil {
			t.Errorf("%s: no error", c.name)
			continue
		}
		t.Logf("%s: %v", c.name, err)
		for _, w := range c.words {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: the error does not say %q: %v", c.name, w, err)
			}
		}
	}
	if _, _, err := Solve(context.Background(), nil); err == nil {
		t.Error("no photographs, no error")
	}
}

const s0 = "head front"

// Whatever is marked, the solve ends, and what it says are numbers: no panic,
// nothing that is not a number, deviations above zero, a covariance that body
// takes.
func TestAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chance := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26, card: rapid.Bool().Draw(t, "card")})
		for i := range shots {
			s := &shots[i]
			s.View = View(rapid.IntRange(0, 4).Draw(t, "view"))
			s.Marks = s.Marks[:rapid.IntRange(0, len(s.Marks)).Draw(t, "marks")]
			for j := range s.Marks {
				if rapid.IntRange(0, 3).Draw(t, "slip") == 0 {
					s.Marks[j].At = Pixel{rapid.Float64Range(0, 4000).Draw(t, "x"), rapid.Float64Range(0, 3000).Draw(t, "y")}
				}
			}
			s.F35 = []float64{0, 26, 200}[rapid.IntRange(0, 2).Draw(t, "f35")]
			s.Ruler.Length = rapid.Float64Range(1, 3000).Draw(t, "ruler")
			if rapid.IntRange(0, 2).Draw(t, "no ruler") == 0 {
				s.Ruler = nil
			}
			s.Distance = []float64{0, 300, 1500, 20000}[rapid.IntRange(0, 3).Draw(t, "distance")]
		}
		s, _, err := Solve(context.Background(), shots)
		if err != nil {
			return
		}
		for _, l := range s.Lengths {
			if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) || !(l.SD > 0) || math.IsInf(l.SD, 0) {
				t.Fatalf("%s: %g ± %g", l.Name, l.Value, l.SD)
			}
		}
		for _, f := range s.Head.Fits {
			if math.IsNaN(f.MM) || math.IsNaN(f.Surprise) || !(f.Redundancy >= -1e-9 && f.Redundancy <= 1+1e-9) {
				t.Fatalf("%+v", f)
			}
		}
		if _, _, err := body.Estimate(body.LoadSurvey(), body.Tape{}, s.Seen); err != nil && !strings.Contains(err.Error(), "above zero") {
			t.Fatal(err)
		}
	})
}

// One front picture tells breadths; a side picture lengths.
func TestOneView(t *testing.T) {
	for view, has := range map[View]string{HeadFront: "head breadth", HeadLeft: "head length", HeadRight: "head length"} {
		chance := rand.New(rand.NewPCG(2, 2))
		sum := newTally()
		for range 60 {
			h := newTestHead(chance)
			s, _, err := Solve(context.Background(), testShots(chance, h, testSetup{distance: 1500, f35: 26, views: []View{view}}))
			if err != nil {
				t.Fatal(err)
			}
			sum.heads(s, h.sizes())
		}
		if view.fromSide() && sum.n["ear to crown"] != 60 {
			t.Errorf("%v: ear to crown in %.0f of 60", view, sum.n["ear to crown"])
		}
		if sum.n[has] != 60 || sum.rms(has) > 5.5 || sum.cover(has) < .87 {
			t.Errorf("%v: %s in %.0f of 60, %.2f mm, %.2f covered", view, has, sum.n[has], sum.rms(has), sum.cover(has))
		}
		t.Logf("%v: %s %.2f mm, face length %.2f mm (%.2f covered)", view, has, sum.rms(has), sum.rms("face length"), sum.cover("face length"))
	}
}

// The same minimum is found from far away, and from the last one.
func TestStarts(t *testing.T) {
	for seed := range uint64(20) {
		shots := taken(seed+40, nil)
		m, x := newModel(newHead(), shots)
		best, err := minimise(context.Background(), m, x)
		if err != nil {
			t.Fatal(err)
		}
		for _, turn := range []float64{.7, -.7} {
			far := append([]float64(nil), x...)
			for _, v := range m.views {
				far[v.at] += turn
				far[v.at+3] += math.Copysign(math.Ln2, turn)
			}
			again, err := minimise(context.Background(), m, far)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(again.cost/best.cost-1) > .01 {
				t.Errorf("set %d, 40° and twice off: cost %.3f, not %.3f", seed, again.cost, best.cost)
			}
		}
		s, _, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		warm, _, err := s.Again(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range s.Lengths {
			if d := math.Abs(l.Value - warm.Lengths[i].Value); d > .01 {
				t.Errorf("set %d: %s is %.3f mm other from a warm start", seed, l.Name, d)
			}
		}
	}
}

// A solve goes on from one of fewer pictures and other marks, and stops when it
// is told to.
func TestAgain(t *testing.T) {
	shots := taken(3, nil)
	fewer := []Shot{shots[2], shots[0]}
	fewer[1].Marks = fewer[1].Marks[3:]
	first, _, err := Solve(context.Background(), fewer)
	if err != nil {
		t.Fatal(err)
	}
	cold, _, err := Solve(context.Background(), shots)
	if err != nil {
		t.Fatal(err)
	}
	warm, _, err := first.Again(context.Background(), shots)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range cold.Lengths {
		if d := math.Abs(l.Value - warm.Lengths[i].Value); d > .01 {
			t.Errorf("%s is %.3f mm other", l.Name, d)
		}
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err := Solve(stopped, shots); err == nil {
		t.Error("it did not stop")
	}
}
