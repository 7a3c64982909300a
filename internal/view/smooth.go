package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// crease is the angle between two triangles from which their edge is one to
// see; below it they are meant as one round surface (detail).
var crease = math.Cos(25 * math.Pi / 180)

// smoothed are normals at the corners of each triangle: the sum over the
// triangles that touch there and are turned less than a crease from it, by area.
func (s *solid) smoothed() [][3]r3.Vec {
	whole := make([]r3.Vec, len(s.T)) // normal by twice the area
	unit := make([]r3.Vec, len(s.T))
	for i, t := range s.T {
		whole[i] = r3.Cross(r3.Sub(s.V[t[1]], s.V[t[0]]), r3.Sub(s.V[t[2]], s.V[t[0]]))
		unit[i] = unitOrZero(whole[i])
	}
	out := make([][3]r3.Vec, len(s.T))
	for i, t := range s.T {
		for k, n := range t {
			var sum r3.Vec
			for _, c := range s.at(s.places[n]) {
				if r3.Dot(unit[i], unit[c/3]) > crease {
					sum = r3.Add(sum, whole[c/3])
				}
			}
			out[i][k] = unitOrZero(sum)
		}
	}
	return out
}

func unitOrZero(v r3.Vec) r3.Vec {
	if l := math.Sqrt(r3.Norm2(v)); l > 0 {
		return r3.Scale(1/l, v)
	}
	return r3.Vec{}
}
