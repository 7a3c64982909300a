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

// What the demo's marks tell of Wren's head agrees with her head: every size
// within three of its stated deviations, nearly all within two.
func TestMarksTellWrensSizes(t *testing.T) {
	form, err := wrensForm()
	if err != nil {
		t.Fatal(err)
	}
	chance := rand.New(rand.NewPCG(seed, seed))
	var marked []photo.Shot
	for _, s := range shots(form)[:3] { // of the head
		marked = append(marked, s.marked(s.pose.Camera(float64(s.f35), width, height), form, chance))
	}
	told, findings, err := photo.Solve(context.Background(), marked)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range findings {
		t.Log(f)
	}
	head := synth.FormHead(form).Lengths()
	var over int
	for _, l := range told.Lengths {
		v, ok := head[l.Name]
		if !ok {
			m, known := form.Measurements().Get(body.Name(l.Name), body.Both)
			if !known {
				continue
			}
			v = m.Value
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
