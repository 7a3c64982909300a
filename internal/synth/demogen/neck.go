package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/synth"
)

// How the skin between neck and shoulders is drawn, mm: the form's neck stands
// on the trunk like a pipe. It reaches so far up the neck and out over the trunk;
// around and steps are detail.
const (
	upTheNeck  = 11.0
	overTrunk  = 62.0
	skinAround = 120
	skinSteps  = 44
	skinLift   = .8
)

// nape is a skin over the step between neck and trunk: at each angle about the
// neck the least hill that hides the step, made smooth.
func nape(f *body.Form, solids map[*body.Part][]geom.Mesh, things *geom.Locator, torso func(r3.Vec) synth.Colour) synth.Surface {
	neck, _ := f.Part(body.Neck, body.Both)
	trunk, _ := f.Part(body.Torso, body.Both)
	_, high := trunk.Range()
	top := trunk.Frame.Point(r3.Vec{Y: high}).Y
	low, _ := neck.Range()
	axis := neck.Frame.Point(neck.Centre(low + upTheNeck))
	pipe, under := geom.NewLocator(solids[neck][0]), geom.NewLocator(solids[trunk][0])
	start := make([]float64, skinAround)
	hills := make([][]float64, skinAround)
	for k := range hills {
		s, c := math.Sincos(2 * math.Pi * float64(k) / skinAround)
		far := r3.Vec{X: axis.X + 300*s, Y: top + upTheNeck, Z: axis.Z + 300*c}
		t, _, _ := pipe.Hit(far, r3.Vec{X: -s, Z: -c})
		start[k] = 300 - t - 1
		ground := make([]float64, skinSteps+1)
		for i := range ground {
			r := start[k] + overTrunk*float64(i)/skinSteps
			t, _, hit := under.Hit(r3.Vec{X: axis.X + r*s, Y: top + 100, Z: axis.Z + r*c}, r3.Vec{Y: -1})
			ground[i] = top + 100 - t
			if !hit {
				ground[i] = ground[max(i-1, 0)] - 3
			}
		}
		ground[0] = top + upTheNeck
		hills[k] = hill(ground)
	}
	hills = softened(hills)
	var m geom.Mesh
	for k, h := range hills {
		s, c := math.Sincos(2 * math.Pi * float64(k) / skinAround)
		for i, y := range h {
			r := start[k] + overTrunk*float64(i)/skinSteps
			m.V = append(m.V, r3.Vec{X: axis.X + r*s, Y: y + skinLift, Z: axis.Z + r*c})
		}
	}
	at := func(k, i int) int { return k%skinAround*(skinSteps+1) + i }
	for k := range skinAround {
		for i := range skinSteps {
			m.T = append(m.T, [3]int{at(k, i), at(k, i+1), at(k+1, i+1)}, [3]int{at(k, i), at(k+1, i+1), at(k+1, i)})
		}
	}
	dims := synth.Dims(m, things, 160)
	return synth.Surface{Mesh: m, Dim: func(v int) float64 { return dims[v] }, Paint: func(p r3.Vec) synth.Colour { return torso(trunk.Frame.Local(p)) }}
}

// hill is the least line over a profile that nowhere bends up, after the step:
// from its end on it follows the ground.
func hill(ground []float64) []float64 {
	var top []int // upper hull
	for i, y := range ground {
		for len(top) > 1 {
			a, b := top[len(top)-2], top[len(top)-1]
			if (ground[b]-ground[a])*float64(i-a) > (y-ground[a])*float64(b-a) {
				break
			}
			top = top[:len(top)-1]
		}
		top = append(top, i)
	}
	out := make([]float64, len(ground))
	for j := 0; j+1 < len(top); j++ {
		a, b := top[j], top[j+1]
		for i := a; i <= b; i++ {
			out[i] = ground[a] + (ground[b]-ground[a])*float64(i-a)/float64(b-a)
		}
	}
	return out
}

// softened are hills rounded along and across, their ends kept.
func softened(h [][]float64) [][]float64 {
	for range 12 {
		next := make([][]float64, len(h))
		for k := range h {
			next[k] = append([]float64(nil), h[k]...)
			before, after := h[(k+len(h)-1)%len(h)], h[(k+1)%len(h)]
			for i := 1; i+1 < len(h[k]); i++ {
				next[k][i] = (h[k][i-1] + h[k][i+1] + before[i] + after[i]) / 4
			}
		}
		h = next
	}
	return h
}
