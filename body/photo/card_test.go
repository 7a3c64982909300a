package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// A card tells scale where there is no ruler, held at any slant up to 30°, and
// its tilt is found; it makes sizes no less sure than a ruler does.
func TestCard(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 3))
	sum, wrong, lost := newTally(), 0, 0
	for range 60 {
		h := newTestHead(chance)
		set := testSetup{distance: 1500, f35: 26, card: true, slant: .5}
		shots := testShots(chance, h, set)
		for i := range shots {
			shots[i].Ruler = nil
		}
		s, _, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		sum.heads(s, h.sizes())
		for _, v := range s.Head.model.views {
			if len(v.sticks) == 0 {
				lost++
				continue
			}
			b := s.Head.best.rows.blocks[v.sticks[0].block]
			if math.Sqrt(s.Head.best.rows.square(b)) > 6 {
				wrong++
			}
		}
	}
	for n, most := range figures {
		t.Logf("%s: %.2f mm, %+.2f, %.2f covered", n, sum.rms(n), sum.bias(n), sum.cover(n))
		if sum.rms(n) > most*1.1 { // 60 heads
			t.Errorf("%s: %.2f mm", n, sum.rms(n))
		}
	}
	if lost > 5 {
		t.Errorf("%d of 180 right cards were left out", lost)
	}
	if wrong > 0 {
		t.Errorf("%d of 180 cards were taken for their mirror images", wrong)
	}
}

// A card that was printed at 94 % contradicts the rulers.
func TestCardTooSmall(t *testing.T) {
	caught := 0
	for seed := range uint64(20) {
		chance := rand.New(rand.NewPCG(seed, 31))
		shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26, card: true})
		for i := range shots {
			if i == 0 {
				shots[i].Card = shrunk(shots[i].Card, .94)
			} else {
				shots[i].Card = nil
			}
		}
		_, findings, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		if f := findingWith(findings, "card in head front", "at true size"); f != nil {
			if caught == 0 {
				t.Log(f)
			}
			caught++
		}
	}
	t.Logf("doubted in %d of 20", caught)
	if caught < 14 { // the depth at which it is held hides the others
		t.Errorf("doubted in %d of 20", caught)
	}
}

// shrunk draws a card's corners together, to what a smaller one would look like
// but for perspective.
func shrunk(c *Card, k float64) *Card {
	var mid Pixel
	for _, p := range c.Corners {
		mid.X, mid.Y = mid.X+p.X/4, mid.Y+p.Y/4
	}
	out := *c
	for i, p := range c.Corners {
		out.Corners[i] = Pixel{mid.X + k*(p.X-mid.X), mid.Y + k*(p.Y-mid.Y)}
	}
	return &out
}
