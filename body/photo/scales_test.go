package photo

import (
	"context"
	"math"
	"strings"
	"testing"

	"tasset/internal/report"
)

// slipped solves ten sets of pictures with a fault that has to do with scale. Each
// must say the words, be without the consequences, and give sizes no further off
// than in proportion to the deviation of clean sets.
func slipped(t *testing.T, name string, plant func(s []Shot), words []string, within float64, hushed ...string) {
	t.Helper()
	for seed := range uint64(10) {
		clean, _, err := Solve(context.Background(), taken(seed, nil))
		if err != nil {
			t.Fatal(err)
		}
		s, findings, err := Solve(context.Background(), taken(seed, plant))
		if err != nil || s.Head == nil {
			t.Fatalf("%s: %v %v", name, err, findings)
		}
		f := findingWith(findings, words...)
		if f == nil {
			t.Errorf("%s, set %d: not found, only %v", name, seed, findings)
			continue
		}
		if seed == 0 {
			t.Log(f)
		}
		for _, h := range hushed {
			if g := findingWith(findings, h); g != nil {
				t.Errorf("%s, set %d: also %v", name, seed, g)
			}
		}
		for i, l := range s.Lengths {
			if off := math.Abs(l.Value-clean.Lengths[i].Value) / l.SD; off > within {
				t.Errorf("%s, set %d: %s %.1f ± %.1f mm, clean %.1f", name, seed, l.Name, l.Value, l.HalfWidth(), clean.Lengths[i].Value)
			}
		}
	}
}

var scaleTalk = []string{"mouth was probably open", "slant", "so near", "miss each other", "come to rest"}

// With two others against it, a ruler or card is left out, and sizes are those of
// the others.
func TestScales_oneOfThree(t *testing.T) {
	begun := func(s []Shot) { // a card in place of the ruler, begun at mark 2
		s[0].Card = cardInstead(s[0].Ruler)
		c := s[0].Card.Corners
		s[0].Ruler, s[0].Card.Corners = nil, [4]Pixel{c[1], c[2], c[3], c[0]}
	}
	slipped(t, "254 for 300", func(s []Shot) { s[0].Ruler.Length = 254 }, []string{"problem", "ruler in head front", "254 mm", "left out", "300 mm"}, 2.5, scaleTalk...)
	slipped(t, "200 for 300", func(s []Shot) { s[0].Ruler.Length = 200 }, []string{"problem", "ruler in head front", "left out", "300 mm"}, 2.5, scaleTalk...)
	slipped(t, "300 cm", func(s []Shot) { s[0].Ruler.Length = 3000 }, []string{"problem", "ruler in head front", "was 300 mm meant, not 300 cm", "left out"}, 2.5, scaleTalk...)
	slipped(t, "30 mm", func(s []Shot) { s[1].Ruler.Length = 30 }, []string{"problem", "ruler in head left side", "was 30 cm meant, not 30 mm", "left out"}, 2.5, scaleTalk...)
	slipped(t, "12 mm for inches", func(s []Shot) { s[2].Ruler.Length = 12 }, []string{"problem", "ruler in head left three-quarter", "was 12 in meant, not 12 mm", "left out"}, 2.5, scaleTalk...)
	slipped(t, "a card begun at mark 2", begun, []string{"problem", "card in head front", "Begin at mark 1", "left out"}, 2.5, scaleTalk...)
}

// cardInstead is a card held square where a ruler stands.
func cardInstead(r *Ruler) *Card {
	k := math.Hypot(r.To.X-r.From.X, r.To.Y-r.From.Y) / r.Length
	x, y := (r.From.X+r.To.X)/2, (r.From.Y+r.To.Y)/2
	w, h := k*CardWidth/2, k*CardHeight/2
	return &Card{Corners: [4]Pixel{{x - w, y - h}, {x + w, y - h}, {x + w, y + h}, {x - w, y + h}}}
}

// One against one: nothing tells which is right, and the deviations hold both.
func TestScales_oneOfTwo(t *testing.T) {
	for _, length := range []float64{254, 375} {
		slipped(t, "one of two", func(s []Shot) { s[0].Ruler.Length, s[2].Ruler = length, nil },
			[]string{"contradict each other", "unsure enough for either"}, 2.2, scaleTalk[:3]...)
	}
}

// Where all rulers agree on what nobody is, no size comes of them.
func TestScales_allWrong(t *testing.T) {
	_, _, err := Solve(context.Background(), taken(1, func(s []Shot) {
		for i := range s {
			s[i].Ruler.Length *= 10
		}
	}))
	if err == nil || strings.Count(err.Error(), "was 300 mm meant, not 300 cm?") != 3 || !strings.Contains(err.Error(), "the size of people") {
		t.Error(err)
	}
}

// A taped distance that ruler and lens contradict is named and left out.
func TestScales_distance(t *testing.T) {
	slipped(t, "1.75 m for 1.5 m", func(s []Shot) { s[0].Distance = taken1500(s[0]) * 1.17 }, []string{"head front", "The distance to the camera is given as", "by ruler and lens it is"}, 1, scaleTalk...)
	slipped(t, "3 m for 1.5 m", func(s []Shot) { s[0].Distance = 3000 }, []string{"head front", "given as 3.00 m, but by ruler and lens it is 1."}, 1, scaleTalk...)
}

// One ruler against one distance: nothing tells which is right.
func TestScales_distanceAgainstOneRuler(t *testing.T) {
	slipped(t, "254 for 300, and the right distance", func(s []Shot) {
		s[0].Distance = taken1500(s[0])
		s[0].Ruler.Length, s[1].Ruler, s[2].Ruler = 254, nil, nil
	}, []string{"problem", "head front", "unsure enough for either"}, 2.5, scaleTalk[:3]...) // 1.96, and what one ruler is off by itself
}

// taken1500 is roughly how far a shot was taken from, by its ruler.
func taken1500(s Shot) float64 {
	return focalPx(s.F35, s.Width, s.Height) * s.Ruler.Length / math.Hypot(s.Ruler.To.X-s.Ruler.From.X, s.Ruler.To.Y-s.Ruler.From.Y)
}

// What is wrong with all pictures of one kind does not stop the other kind.
func TestUselessBody(t *testing.T) {
	shots := taken(2, nil)
	for _, q := range taken(2, nil) {
		q.View, q.Name, q.Marks = BodyFront, "body.jpg", []Mark{{Name: "crown", At: Pixel{10, 10}}}
		shots = append(shots, q)
	}
	s, findings, err := Solve(context.Background(), shots)
	if err != nil || s.Head == nil || s.Body != nil || len(s.Lengths) == 0 {
		t.Fatal(err)
	}
	if f := findingWith(findings, "No photograph of the body can be used"); f == nil || f.Level != report.Problem {
		t.Error(findings)
	}
}

// A card that is squeezed as if it were held at a slant is doubted.
func TestSqueezedCard(t *testing.T) {
	slipped(t, "a squeezed card", func(s []Shot) {
		s[0].Card = cardInstead(s[0].Ruler)
		s[0].Ruler = nil
		c := &s[0].Card.Corners
		c[2].Y, c[3].Y = c[2].Y-.126*(c[2].Y-c[1].Y), c[3].Y-.126*(c[3].Y-c[0].Y)
	}, []string{"card in head front"}, 4)
}

// Places that are counted otherwise are named as that.
func TestMiscounted(t *testing.T) {
	for _, c := range []struct {
		name  string
		place func(p Pixel, s *Shot) Pixel
		words string
	}{
		{"from below", func(p Pixel, s *Shot) Pixel { return Pixel{p.X, float64(s.Height) - p.Y} }, "counts from the upper edge downwards"},
		{"exchanged", func(p Pixel, s *Shot) Pixel { return Pixel{p.Y, p.X} }, "two numbers of the marks are exchanged"},
		{"upside down", func(p Pixel, s *Shot) Pixel { return Pixel{float64(s.Width) - p.X, float64(s.Height) - p.Y} }, "Turn the picture upright"},
	} {
		for seed := range uint64(5) {
			all := func(shots []Shot) {
				for i := range shots {
					s := &shots[i]
					s.Width, s.Height = 4000, 4000
					for k := range s.Marks {
						s.Marks[k].At = c.place(s.Marks[k].At, s)
					}
				}
			}
			_, _, err := Solve(context.Background(), taken(seed, all))
			if err == nil || strings.Count(err.Error(), c.words) != 3 {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
}
