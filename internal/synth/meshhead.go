package synth

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// The landmarks of male-average, female-average, check-man and check-woman.obj
// (one net of 13,380 vertices for all), picked once on male-average in pictures
// of eye, ear, mouth and profile: vertices counted from 0, those of pairs on the
// left. The eyes are hollow; balls are put into them.
var meshPlain = map[string]int{"brow middle": 227, "nose root": 132, "nose tip": 297, "nose base": 343, "chin": 5296}
var meshLeft = map[string]int{"inner eye corner": 6847, "outer eye corner": 13376, "mouth corner": 7191, "tragion": 12258}

const meshVertices = 13380

// MeshHead is the head of such a mesh, its landmarks picked, its other places
// found by rules: the pupils foremost on the balls between the eyes' corners,
// the cheekbones outermost between eye and ear, the skull's places as on every
// Head.
func MeshHead(m geom.Mesh) (*Head, error) {
	if len(m.V) != meshVertices {
		return nil, fmt.Errorf("the mesh has %d vertices; the landmarks were picked on one of %d", len(m.V), meshVertices)
	}
	h := &Head{Points: map[string]r3.Vec{}, Place: geom.Identity(), Up: r3.Vec{Y: 1}}
	for n, i := range meshPlain {
		h.Points[n] = m.V[i]
	}
	for n, i := range meshLeft {
		h.Points["left "+n] = m.V[i]
		mirror := m.V[i]
		mirror.X = -mirror.X
		h.Points["right "+n] = closest(m.V, mirror)
	}
	h.Solid = geom.Mesh{V: slices.Clone(m.V), T: slices.Clone(m.T)}
	for _, side := range []string{"left ", "right "} {
		ball := h.eyeball(side)
		h.Points[side+"pupil"] = r3.Add(ball, r3.Vec{Z: eyeRadius})
		h.Points[side+"cheekbone"] = h.cheekbone(m, side)
		h.Solid.Append(globe(ball, eyeRadius))
	}
	h.Skull = h.skullOf(m)
	return h.levelled(), nil
}

// eyeRadius is half the breadth of an eyeball, mm (textbook: 24 mm).
const eyeRadius = 12.0

// eyeball is the middle of an eye: behind the middle between its corners.
func (h *Head) eyeball(side string) r3.Vec {
	mid := geom.Lerp(h.Points[side+"inner eye corner"], h.Points[side+"outer eye corner"], .5)
	return r3.Sub(mid, r3.Vec{Z: eyeRadius - 2.5})
}

func closest(v []r3.Vec, p r3.Vec) r3.Vec {
	return slices.MinFunc(v, func(a, b r3.Vec) int { return compare(r3.Norm(r3.Sub(a, p)), r3.Norm(r3.Sub(b, p))) })
}

// cheekbone is the outermost vertex between eye and ear at their height.
func (h *Head) cheekbone(m geom.Mesh, side string) r3.Vec {
	ear, eye := h.Points[side+"tragion"], h.Points[side+"outer eye corner"]
	way := math.Copysign(1, ear.X)
	best := r3.Vec{}
	for _, v := range m.V {
		if v.Z > ear.Z+12 && v.Z < eye.Z && math.Abs(v.Y-ear.Y) < 20 && way*v.X > way*best.X {
			best = v
		}
	}
	return best
}

// skullOf is the skin of the head from the nape up without the ears, which reach
// from the tragions 25 mm up and stand out from the skull.
func (h *Head) skullOf(m geom.Mesh) geom.Mesh {
	ear := h.Points["left tragion"]
	keep := func(v r3.Vec) bool {
		return v.Y > ear.Y+nape && (v.Y > ear.Y+ears || math.Abs(v.X) < math.Abs(ear.X)-2)
	}
	out := geom.Mesh{}
	place := make([]int, len(m.V))
	for i, v := range m.V {
		if keep(v) {
			place[i] = len(out.V) + 1
			out.V = append(out.V, v)
		}
	}
	for _, t := range m.T {
		if a, b, c := place[t[0]], place[t[1]], place[t[2]]; a > 0 && b > 0 && c > 0 {
			out.T = append(out.T, [3]int{a - 1, b - 1, c - 1})
		}
	}
	return out
}

// globe is a ball.
func globe(centre r3.Vec, radius float64) geom.Mesh {
	const rows, turns = 16, 24
	at := func(i, j int) r3.Vec {
		sr, cr := math.Sincos(math.Pi * float64(i) / rows)
		st, ct := math.Sincos(2 * math.Pi * float64(j) / turns)
		return r3.Add(centre, r3.Scale(radius, r3.Vec{X: sr * ct, Y: sr * st, Z: cr}))
	}
	var m geom.Mesh
	for i := range rows {
		for j := range turns {
			k := len(m.V)
			m.V = append(m.V, at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1))
			m.T = append(m.T, [3]int{k, k + 1, k + 2}, [3]int{k, k + 2, k + 3})
		}
	}
	return m
}
