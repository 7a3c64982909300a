package sheet

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"tasset/body/photo"
	"tasset/internal/synth"
)

// The guide's figures are what the solver reaches: over 60 made-up heads the root
// mean square error comes out within a quarter of what is printed, 2.7 times
// the deviation of such a figure (1 / √120).
func TestSimulations_areWhatTheSolverReaches(t *testing.T) {
	const column, heads = 2, 60
	distance := NewGuide(Device{}).Metres[column] * 1000
	got := reached(t, distance, heads)
	for _, c := range simulations()[:4] {
		if want := c.MM[column]; math.Abs(got[c.On]/want-1) > 0.25 {
			t.Errorf("%s from %.0f mm: %.2f mm, the guide says %.1f", c.On, distance, got[c.On], want)
		}
	}
}

// reached are the errors of lengths over heads photographed as usual.
func reached(t *testing.T, distance float64, heads int) map[string]float64 {
	t.Helper()
	chance := rand.New(rand.NewPCG(1, 1))
	session := synth.Usual()
	session.Distance = distance
	square := map[string]float64{}
	for range heads {
		h, err := synth.RandomHead(chance)
		if err != nil {
			t.Fatal(err)
		}
		s, _, err := photo.Solve(context.Background(), synth.UsualHand.Mark(session.Take(h, chance), chance))
		if err != nil {
			t.Fatal(err)
		}
		truth := h.Lengths()
		for _, l := range s.Lengths {
			square[l.Name] += (l.Value - truth[l.Name]) * (l.Value - truth[l.Name]) / float64(heads)
		}
	}
	for n := range square {
		square[n] = math.Sqrt(square[n])
	}
	return square
}
