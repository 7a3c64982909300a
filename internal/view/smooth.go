package view

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// crease is the angle between two triangles from which their edge is one to
// see; below it they are meant as one round surface (detail).
var crease = math.Cos(25 * math.Pi / 180)

// smoothed are normals at the corners of each triangle: the sum over the
// triangles that touch there and are turned less than a crease from it, by area.
// Corners are the same where they are in one place.
func smoothed(m geom.Mesh) [][3]r3.Vec {
	whole := make([]r3.Vec, len(m.T)) // normal by twice the area
	unit := make([]r3.Vec, len(m.T))
	round := make([][]int, len(m.V)) // triangles by vertex
	ids := welded(m)
	for i, t := range m.T {
		whole[i] = r3.Cross(r3.Sub(m.V[t[1]], m.V[t[0]]), r3.Sub(m.V[t[2]], m.V[t[0]]))
		if l := r3.Norm(whole[i]); l > 0 {
			unit[i] = r3.Scale(1/l, whole[i])
		}
		for _, n := range t {
			round[ids[n]] = append(round[ids[n]], i)
		}
	}
	out := make([][3]r3.Vec, len(m.T))
	for i, t := range m.T {
		for k, n := range t {
			var sum r3.Vec
			for _, j := range round[ids[n]] {
				if r3.Dot(unit[i], unit[j]) > crease {
					sum = r3.Add(sum, whole[j])
				}
			}
			if l := r3.Norm(sum); l > 0 {
				out[i][k] = r3.Scale(1/l, sum)
			}
		}
	}
	return out
}
