package pattern

import (
	"math"
	"math/rand/v2"
	"testing"

	"tasset/body"

	"gonum.org/v1/gonum/spatial/r3"
)

// What is left out on a way past the body, along it, off it and into it, never comes
// nearer than the least that is found, which is that of measuring every place.
func TestApproach_findsTheLeast(t *testing.T) {
	sizes, _, err := body.Estimate(body.LoadSurvey(), body.LoadSurvey().Draw(body.Woman, rand.New(rand.NewPCG(1, 1))), nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(sizes, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	const ways, steps = 40, 300
	random := rand.New(rand.NewPCG(6, 6))
	inside, measured := 0, 0
	for range ways {
		near := approach{parts: form.Parts(), least: math.Inf(1)}
		want := math.Inf(1)
		at := r3.Vec{X: 400 * (random.Float64() - .5), Y: 1700 * random.Float64(), Z: 250 + 100*random.Float64()}
		pull := r3.Scale(-1.6/steps, r3.Vec{X: at.X, Z: at.Z * random.Float64()})
		for range steps {
			at = r3.Add(at, r3.Add(pull, r3.Scale(4, r3.Vec{X: random.Float64() - .5, Y: random.Float64() - .5, Z: random.Float64() - .5})))
			want = min(want, form.Distance(at))
			if !near.passes(at) {
				near.least = min(near.least, near.measure(at))
				measured++
			}
		}
		if near.least != want {
			t.Errorf("the nearest place is said to be at %g mm, and is at %g", near.least, want)
		}
		if want < 0 {
			inside++
		}
	}
	if inside == 0 || inside == ways {
		t.Errorf("%d of %d ways lead into the body; some must and some not", inside, ways)
	}
	if measured == ways*steps {
		t.Error("no place was left out")
	}
}
