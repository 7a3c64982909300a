package main

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/synth"
)

// What the demo's marks tell of Wren agrees with her form: every size within
// three of its stated deviations, nearly all within two.
func TestMarksTellWrensSizes(t *testing.T) {
	form, err := wrensForm()
	if err != nil {
		t.Fatal(err)
	}
	chance := rand.New(rand.NewPCG(seed, seed))
	var marked []photo.Shot
	for _, s := range shots(form) {
		marked = append(marked, s.marked(s.pose.Camera(float64(s.f35), width, height), form, chance))
	}
	told, findings, err := photo.Solve(context.Background(), marked)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range findings {
		t.Log(f)
	}
	head, standing := synth.FormHead(form).Lengths(), synth.NewStanding(form).BodySizes()
	var over int
	for _, l := range told.Lengths {
		v, ok := head[l.Name]
		if !ok {
			if v, ok = standing[body.Name(l.Name)]; !ok {
				t.Errorf("the pictures tell %s, of which no truth is known", l.Name)
				continue
			}
		}
		off := l.Value - v
		t.Logf("%-20s %7.1f ± %.1f true %.1f", l.Name, l.Value, l.HalfWidth(), v)
		if math.Abs(off) > 2*l.SD {
			over++
		}
		if math.Abs(off) > 3*l.SD {
			t.Errorf("%s is read as %.1f ± %.1f mm; it is %.1f", l.Name, l.Value, l.HalfWidth(), v)
		}
	}
	if over > 2 {
		t.Errorf("%d sizes miss by more than two deviations", over)
	}
}
