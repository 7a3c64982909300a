package synth_test

import (
	"context"
	"math"
	"math/rand/v2"
	"regexp"
	"sync"
	"testing"

	"tasset/body/photo"
	"tasset/internal/synth"
)

// people are the heads that the figures are taken over.
var people = sync.OnceValue(func() []*synth.Head {
	chance := rand.New(rand.NewPCG(1, 1))
	var all []*synth.Head
	for range 300 {
		h, err := synth.RandomHead(chance)
		if err != nil {
			panic(err)
		}
		all = append(all, h)
	}
	return all
})

// trial is one way to photograph and mark heads.
type trial struct {
	sitting synth.Sitting
	hand    synth.Hand
	stated  float64 // deviation stated with every mark, mm; 0: usual
}

// result of a trial over all people.
type result struct {
	lengths  tally
	naive    tally // read off one picture by its ruler
	findings map[string]int
	late     int // solves that did not settle
	spread   float64
}

func (tr trial) run(t testing.TB, people []*synth.Head, look func(*synth.Head, *photo.Solution, *rand.Rand)) result {
	t.Helper()
	r := result{lengths: tally{}, naive: tally{}, findings: map[string]int{}}
	for i, h := range people {
		chance := rand.New(rand.NewPCG(7, uint64(i)))
		shots := tr.hand.Mark(tr.sitting.Take(h, chance), chance)
		state(shots, tr.stated)
		s, findings, err := photo.Solve(context.Background(), shots)
		if err != nil {
			t.Fatalf("head %d: %v", i, err)
		}
		r.note(h, shots, s)
		for _, f := range findings {
			r.findings[numbers.ReplaceAllString(f.Said, "#")]++
		}
		if look != nil {
			look(h, s, chance)
		}
	}
	r.spread /= float64(len(people))
	return r
}

func (r *result) note(h *synth.Head, shots []photo.Shot, s *photo.Solution) {
	truth := h.Lengths()
	for _, l := range s.Lengths {
		if v, ok := truth[l.Name]; ok {
			r.lengths.add(l.Name, l.Value-v, l.HalfWidth())
		}
	}
	r.naive.add("head length", naive(shots[1], "brow middle", "back of the head")-truth["head length"], 0)
	if !s.Head.Settled {
		r.late++
	}
	r.spread += s.Head.Spread
}

// numbers and lists of marks differ from head to head.
var numbers = regexp.MustCompile(`[0-9.]+|: [a-z ,]+\.$`)

// naive is a length across a picture by the ruler's scale alone.
func naive(s photo.Shot, a, b string) float64 {
	at := map[string]photo.Pixel{}
	for _, m := range s.Marks {
		at[m.Name] = m.At
	}
	long := math.Hypot(s.Ruler.To.X-s.Ruler.From.X, s.Ruler.To.Y-s.Ruler.From.Y)
	return math.Abs(at[a].X-at[b].X) * s.Ruler.Length / long
}

// state says of every mark how well it was placed.
func state(shots []photo.Shot, sd float64) {
	for k := range shots {
		for m := range shots[k].Marks {
			shots[k].Marks[m].SD = sd
		}
	}
}
