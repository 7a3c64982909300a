package pattern_test

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"tasset/body"
)

// drawBody makes a form of a body drawn from the survey's model.
func drawBody(t testing.TB, i int) *body.Form {
	t.Helper()
	return formOf(t, drawTape(i))
}

func drawTape(i int) body.Tape {
	return body.LoadSurvey().Draw(sexOf(i), rand.New(rand.NewPCG(1, uint64(i))))
}

func sexOf(i int) body.Sex { return []body.Sex{body.Man, body.Woman, body.NotStated}[i%3] }

func formOf(t testing.TB, tape body.Tape) *body.Form {
	t.Helper()
	return standingSo(t, tape, body.Posture{})
}

// ownPosture is how a drawn body stands: chest and waist as far from usual as 20 and 15
// mm, the shoulders 10 mm from where the chest takes them, which is half its way, as
// standard deviations, but for every fourth, which stands as usual. Judgement: on four
// bodies that nobody here drew chests stand 34 mm behind to 12 mm before usual, waists
// 11 behind to 8 before, and shoulders up to 15 mm from where the chest takes them.
func ownPosture(i int) body.Posture {
	if i%4 == 3 {
		return body.Posture{}
	}
	chance := rand.New(rand.NewPCG(4, uint64(i)))
	p := body.Posture{ChestForward: 20 * chance.NormFloat64(), WaistForward: 15 * chance.NormFloat64(), ShouldersKnown: true}
	p.ShouldersForward = p.ChestForward/2 + 10*chance.NormFloat64()
	return p
}

func standingSo(t testing.TB, tape body.Tape, p body.Posture) *body.Form {
	t.Helper()
	m, _, err := body.Estimate(body.LoadSurvey(), tape, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, p)
	if err != nil {
		t.Fatal(err)
	}
	return form
}

// crowd is the mean and the deviation of each size, in logarithms, of people
// drawn from the survey.
type crowd struct{ mean, sd map[body.Name]float64 }

var crowds = sync.OnceValue(func() map[body.Sex]crowd {
	const people = 400
	out := map[body.Sex]crowd{}
	for _, sex := range []body.Sex{body.Man, body.Woman, body.NotStated} {
		c := crowd{map[body.Name]float64{}, map[body.Name]float64{}}
		square := map[body.Name]float64{}
		for i := range people {
			for _, e := range body.LoadSurvey().Draw(sex, rand.New(rand.NewPCG(2, uint64(i)))).Entries {
				l := math.Log(e.Value)
				c.mean[e.Name] += l / people
				square[e.Name] += l * l / people
			}
		}
		for n, m := range c.mean {
			c.sd[n] = math.Sqrt(square[n] - m*m)
		}
		out[sex] = c
	}
	return out
})

// builds are people whom the survey does not reach: by how many deviations of its
// logarithms lengths and heights, and girths, breadths, depths and weight, lie
// from its means. Its 1st and 99th percentiles lie at 2.33.
var builds = []struct {
	name        string
	long, thick float64
}{{"tall", 1, 0.5}, {"short", -1, -0.5}, {"heavy", 0, 1}, {"slight", 0, -1}}

// beyondSurvey makes a form of a body outside the survey: from 2.4 to 3.6
// deviations, with half of what sets a drawn body apart from the mean.
func beyondSurvey(t testing.TB, i int) (form *body.Form, name string) {
	t.Helper()
	b, sex, chance := builds[i%len(builds)], sexOf(i/len(builds)), rand.New(rand.NewPCG(3, uint64(i)))
	far := 2.4 + 1.2*chance.Float64()
	tape, c := body.LoadSurvey().Draw(sex, chance), crowds()[sex]
	for k := range tape.Entries {
		e := &tape.Entries[k]
		push := b.thick
		if d, _ := body.Describe(e.Name); d.Kind == body.KindLength || d.Kind == body.KindHeight {
			push = b.long
		}
		if d, _ := body.Describe(e.Name); d.Region == body.Head { // skulls do not grow with the rest
			push /= 2
		}
		own := 0.5 * (math.Log(e.Value) - c.mean[e.Name])
		e.Value = math.Exp(c.mean[e.Name] + own + push*far*c.sd[e.Name])
	}
	return standingSo(t, tape, ownPosture(i)), b.name
}
