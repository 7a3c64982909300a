package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

// tally gathers errors and coverage by measure.
type tally struct{ square, sum, covered, n map[string]float64 }

func newTally() *tally {
	return &tally{map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}}
}

func (t *tally) add(name string, err, half float64) {
	t.square[name] += err * err
	t.sum[name] += err
	t.n[name]++
	if math.Abs(err) <= half {
		t.covered[name]++
	}
}

func (t *tally) rms(name string) float64   { return math.Sqrt(t.square[name] / t.n[name]) }
func (t *tally) bias(name string) float64  { return t.sum[name] / t.n[name] }
func (t *tally) cover(name string) float64 { return t.covered[name] / t.n[name] }

func (t *tally) heads(s *Solution, truth map[string]float64) {
	for _, l := range s.Lengths {
		if v, ok := truth[l.Name]; ok {
			t.add(l.Name, l.Value-v, l.HalfWidth())
		}
	}
}

// figures are what three pictures from 1.5 m are to reach, root mean square in mm.
// They are judged on heads of the body form and on meshes, in internal/synth. The
// heads here have other skulls (eggs, flat sides, widest anywhere), which cost a
// little: a thousand of them gave 3.46 (length), 3.56 (breadth), 1.72, 2.57, 2.93
// and 1.46. A sample of 400 may be 5 % above that.
var figures = map[string]float64{
	"head length": 3.6, "head breadth": 3.6, "face length": 2.3, "ear to ear": 3.5, "chin to crown": 3.5, "pupil distance": 2.0,
}

// Four hundred made-up heads at 1.5 m: errors, and how many 95 % intervals hold the
// truth, with marks as good as they are said to be, twice as bad, twice as good.
// The crania here differ from the solver's as people do from each other: their
// exponents spread by .15 and .1.
func TestFigures(t *testing.T) {
	for _, set := range []testSetup{{clicks: 1}, {clicks: 2}, {clicks: .5}} {
		set.distance, set.f35 = 1500, 26
		chance := rand.New(rand.NewPCG(1, 9))
		sum, unsettled := newTally(), 0
		for range 400 {
			h := newTestHead(chance)
			h.level, h.profile = h.level+.15*chance.NormFloat64(), h.profile+.1*chance.NormFloat64()
			s, _, err := Solve(context.Background(), testShots(chance, h, set))
			if err != nil {
				t.Fatal(err)
			}
			sum.heads(s, h.sizes())
			if !s.Head.Settled {
				unsettled++
			}
		}
		for _, m := range headMeasures {
			if sum.n[m.name] == 0 {
				continue
			}
			t.Logf("clicks × %g: %-15s rms %.2f mean %+.2f covered %.2f", set.clicks, m.name, sum.rms(m.name), sum.bias(m.name), sum.cover(m.name))
			if most, ok := figures[m.name]; ok && set.clicks == 1 && sum.rms(m.name) > 1.05*most {
				t.Errorf("%s: %.2f mm, more than %.2f", m.name, sum.rms(m.name), 1.05*most)
			}
			if c := sum.cover(m.name); c < .88 || (c > .99 && m.own == 0) {
				t.Errorf("clicks × %g: %s: %.0f %% of the 95 %% intervals hold the truth", set.clicks, m.name, 100*c)
			}
		}
		if unsettled > 8 {
			t.Errorf("%d of 400 searches did not come to rest", unsettled)
		}
	}
}

// Marks and rulers without error give the head back, if it has a mirror image and
// a skull as the solver takes it, to 0.1 mm. Where heads are turned by 6°, skull
// sizes come back to 0.3 mm only: where along the outline the skull is widest is
// taken to be marked to 10 mm. The cheekbones are seen in one view alone, so
// their breadth hangs on how deep they are guessed to lie.
func TestExact(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 9))
	for i := range 30 {
		h := drawHead(chance, 0).asModelled()
		set := testSetup{distance: 1500, f35: 26, exact: true, square: i%2 == 0}
		shots := testShots(chance, h, set)
		for i := range shots {
			for j := range shots[i].Marks {
				shots[i].Marks[j].SD = .01
			}
		}
		s, _, err := Solve(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		truth := h.sizes()
		for _, l := range s.Lengths {
			most := .1
			if !set.square && strings.Contains(l.Name, "head") || !set.square && strings.Contains(l.Name, "crown") {
				most = .3
			}
			if v, ok := truth[l.Name]; ok && l.Name != "face breadth" && math.Abs(l.Value-v) > most {
				t.Errorf("%s is off by %.3f mm", l.Name, l.Value-v)
			}
		}
	}
}

// Forty sets of pictures in turn, and the time that 95 of 100 solves stay under.
func BenchmarkSolveCold(b *testing.B) {
	chance := rand.New(rand.NewPCG(1, 9))
	var sets [][]Shot
	for range 40 {
		sets = append(sets, testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26}))
	}
	var times []float64
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		if _, _, err := Solve(context.Background(), sets[i%len(sets)]); err != nil {
			b.Fatal(err)
		}
		times = append(times, time.Since(start).Seconds()*1000)
	}
	slices.Sort(times)
	b.ReportMetric(times[len(times)*95/100], "p95-ms")
}

// A mark is dragged by a few pixels.
func BenchmarkSolveWarm(b *testing.B) {
	chance := rand.New(rand.NewPCG(1, 9))
	shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26})
	s, _, err := Solve(context.Background(), shots)
	if err != nil {
		b.Fatal(err)
	}
	at := shots[0].Marks[3].At
	for i := 0; b.Loop(); i++ {
		shots[0].Marks[3].At = Pixel{at.X + float64(i%7) - 3, at.Y + float64(i%5) - 2}
		if s, _, err = s.Again(context.Background(), shots); err != nil {
			b.Fatal(err)
		}
	}
}
