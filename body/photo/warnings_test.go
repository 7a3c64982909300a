package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// What is not wrong but costs millimetres is said, with what to do.
func TestWarnings(t *testing.T) {
	for _, c := range []struct {
		name  string
		set   testSetup
		plant func(s []Shot)
		words []string
	}{
		{"from near", testSetup{distance: 600, f35: 26}, nil, []string{"taken from 0.", "Stand 1.5 to 3 m away"}},
		{"a hasty hand", testSetup{distance: 1500, f35: 26, clicks: 3}, nil, []string{"head photographs", "times as far as careful marks do", "widened"}},
		{"unchecked points", testSetup{distance: 1500, f35: 26}, nil, []string{"Nothing checks these points", "back of the head"}},
		{"no focal length from near", testSetup{distance: 600, f35: 26}, func(s []Shot) {
			for i := range s {
				s[i].F35 = 0
			}
		}, []string{"focal length is not known", `"focal length: 26 mm"`}},
		{"a ruler held at a slant", testSetup{distance: 1500, f35: 26}, func(s []Shot) {
			r := s[0].Ruler
			r.To = Pixel{r.From.X + .9*(r.To.X-r.From.X), r.From.Y + .9*(r.To.Y-r.From.Y)}
		}, []string{"ruler in head front"}},
	} {
		caught := 0
		for seed := range uint64(10) {
			chance := rand.New(rand.NewPCG(seed, 55))
			shots := testShots(chance, newTestHead(chance), c.set)
			if c.plant != nil {
				c.plant(shots)
			}
			_, findings, err := Solve(context.Background(), shots)
			if err != nil {
				t.Fatal(err)
			}
			if f := findingWith(findings, c.words...); f != nil {
				if caught == 0 {
					t.Logf("%s: %s", c.name, f)
				}
				caught++
			}
		}
		if caught < 8 {
			t.Errorf("%s: said in %d of 10", c.name, caught)
		}
	}
}

// A distance that was taped makes head length no worse, and the distance known
// to about 2 %.
func TestTapedDistance(t *testing.T) {
	chance := rand.New(rand.NewPCG(6, 6))
	for range 5 {
		h := newTestHead(chance)
		shots := testShots(chance, h, testSetup{distance: 1500, f35: 26})
		free, _, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		for i := range shots {
			shots[i].F35 = 0
			shots[i].Distance, _ = free.Head.Distance(i)
		}
		taped, _, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		for i := range shots {
			d, sd := taped.Head.Distance(i)
			if math.Abs(d/shots[i].Distance-1) > .02 || sd > .025*d {
				t.Errorf("distance %.0f ± %.0f mm, taped %.0f", d, 1.96*sd, shots[i].Distance)
			}
		}
	}
}
