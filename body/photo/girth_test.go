package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"gonum.org/v1/gonum/stat"

	"tasset/body"
	"tasset/body/internal/surveyed"
)

// The head girth's ratio and scatter are those of the survey.
func TestGirthRatio(t *testing.T) {
	dir := os.Getenv("TASSET_DATA")
	if dir == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("TASSET_DATA does not name the folder that holds survey/")
		}
		t.Skip("needs the survey: set TASSET_DATA to the folder that holds survey/")
	}
	people, err := surveyed.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name           string
		sex            body.Sex
		ratio, scatter float64
	}{{"all", body.NotStated, girthRatio, girthScatter}, {"men", body.Man, manRatio, manScatter}, {"women", body.Woman, womanRatio, womanScatter}} {
		var dot, square, left, n float64
		each := func(do func(girth, around float64)) {
			for _, p := range people {
				if c.sex == body.NotStated || c.sex == p.Sex {
					do(p.Size("head girth"), ellipse(p.Size("head length")/2, p.Size("head breadth")/2))
				}
			}
		}
		each(func(g, e float64) { dot, square, n = dot+e*g, square+e*e, n+1 })
		ratio := dot / square
		each(func(g, e float64) { left += (g - ratio*e) * (g - ratio*e) })
		scatter := math.Sqrt(left / n)
		t.Logf("%.0f %s: ratio %.4f, scatter %.2f mm", n, c.name, ratio, scatter)
		if math.Abs(ratio-c.ratio) > 6e-5 || math.Abs(scatter-c.scatter) > .06 {
			t.Errorf("%s: the survey gives %.4f ± %.2f", c.name, ratio, scatter)
		}
	}
}

// A head is levelled by the survey's mean of the eye's height over the ear, from
// which people are 8 mm off.
func TestEyeOverEar(t *testing.T) {
	dir := os.Getenv("TASSET_DATA")
	if dir == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("TASSET_DATA does not name the folder that holds survey/")
		}
		t.Skip("needs the survey: set TASSET_DATA to the folder that holds survey/")
	}
	people, err := surveyed.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	var heights []float64
	for _, p := range people {
		heights = append(heights, p.Size("ear to crown")-p.Size("eye to crown"))
	}
	mean, sd := stat.MeanStdDev(heights, nil)
	t.Logf("mean %.2f, scatter %.2f mm", mean, sd)
	if i := newHead().must("left outer eye corner"); math.Abs(mean-headTable[i].mean.Y) > .05 || math.Abs(sd-8) > .05 {
		t.Errorf("the survey gives %.2f ± %.2f", mean, sd)
	}
}

// A circle and a flat line bound Ramanujan's formula; between them, the girth by
// summing 10^5 chords.
func TestEllipse(t *testing.T) {
	for _, ab := range [][2]float64{{1, 1}, {98, 76}, {100, 60}} {
		const n = 100000
		var sum float64
		for i := range n {
			s0, c0 := math.Sincos(2 * math.Pi * float64(i) / n)
			s1, c1 := math.Sincos(2 * math.Pi * float64(i+1) / n)
			sum += math.Hypot(ab[0]*(c1-c0), ab[1]*(s1-s0))
		}
		if g := ellipse(ab[0], ab[1]); math.Abs(g-sum) > 1e-8*sum {
			t.Errorf("%v: %.9f, by chords %.9f", ab, g, sum)
		}
	}
}

// One tape round the head makes its length and breadth surer, through what the
// photographs know of all three together. The heads' girths are drawn as the
// survey's scatter; the tape is off by 3 mm. 2.9 mm are aimed at: men's length
// reaches 2.76 and breadth 2.92; women's hair leaves a tape less to say. What is
// held here is that; the aim is judged in internal/synth.
func TestTapeHelps(t *testing.T) {
	for _, c := range []struct {
		sex                  body.Sex
		ratio, scatter, most float64
		heads                int
	}{{body.Man, manRatio, manScatter, 3, 400}, {body.Woman, womanRatio, womanScatter, 3.3, 100}, {body.NotStated, girthRatio, girthScatter, 3.3, 100}} {
		chance := rand.New(rand.NewPCG(5, 1))
		alone, taped := newTally(), newTally()
		for range c.heads {
			h := newTestHead(chance)
			s, _, err := Solve(context.Background(), testShots(chance, h, testSetup{distance: 1500, f35: 26}))
			if err != nil {
				t.Fatal(err)
			}
			truth := h.sizes()
			truth["head girth"] = c.ratio*ellipse((h.half.Z+h.front)/2, h.half.X) + c.scatter*chance.NormFloat64()
			girth := body.Entry{Name: "head girth", Value: truth["head girth"] + 3*chance.NormFloat64(), SD: 3}
			for entries, sum := range map[int]*tally{0: alone, 1: taped} {
				m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: c.sex, Entries: []body.Entry{girth}[:entries]}, s.SeenOf(c.sex))
				if err != nil {
					t.Fatal(err)
				}
				for _, n := range []body.Name{"head length", "head breadth", "head girth"} {
					got, _ := m.Get(n, body.Both)
					sum.add(string(n), got.Value-truth[string(n)], got.HalfWidth())
				}
			}
		}
		for n, most := range map[string]float64{"head length": c.most, "head breadth": c.most, "head girth": 3.5} {
			t.Logf("sex %v, %s: alone %.2f mm, with tape %.2f mm (%.0f %% covered)", c.sex, n, alone.rms(n), taped.rms(n), 100*taped.cover(n))
			if taped.rms(n) > most || taped.rms(n) >= alone.rms(n) {
				t.Errorf("%s: %.2f mm with a tape, %.2f without; at most %.1f", n, taped.rms(n), alone.rms(n), most)
			}
		}
	}
}
