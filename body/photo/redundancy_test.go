package photo

import (
	"context"
	"math/rand/v2"
	"testing"
)

// How many points nothing checks is a matter of which marks there are, not of how
// good they are.
func TestUnchecked_isNoLuck(t *testing.T) {
	count := func(seed uint64, clicks float64) (n int) {
		chance := rand.New(rand.NewPCG(seed, 8))
		s, _, err := Solve(context.Background(), testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26, clicks: clicks}))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range s.Head.Points {
			if !p.Checked {
				n++
			}
		}
		return n
	}
	var sum [4]int
	for seed := range uint64(15) {
		for i, clicks := range []float64{.25, .5, 1, 2} {
			sum[i] += count(seed, clicks)
		}
	}
	t.Logf("unchecked points of 15 heads: %v with marks .25, .5, 1, 2 times as far off as usual", sum)
	for _, n := range sum {
		if n < sum[2]*9/10 || n > sum[2]*11/10 {
			t.Error("how good the marks are by luck decides what checks them")
		}
	}
}

// A slip of 12 mm at the eye shows as well in careful marks as in usual ones.
func TestSlip_showsAmongCarefulMarks(t *testing.T) {
	var found [2]int
	for seed := range uint64(40) {
		for i, clicks := range []float64{.3, 1} {
			chance := rand.New(rand.NewPCG(seed, 18))
			shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26, clicks: clicks})
			mm(mark(&shots[2], "left outer eye corner"), 0, 12)
			s, _, err := Solve(context.Background(), shots)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range s.Head.Fits {
				if f.Shot == 2 && f.Name == "left outer eye corner" && !f.Fits() {
					found[i]++
				}
			}
		}
	}
	t.Logf("found %d of 40 among careful marks, %d among usual ones", found[0], found[1])
	if found[0] < found[1] {
		t.Error("care hides slips")
	}
}
