package main

import (
	"math"

	"tasset/internal/flatten"

	"gonum.org/v1/gonum/spatial/r3"
)

// surface is a panel over the unit square and how many columns of its grid there
// are to a row of it.
type surface struct {
	name  string
	ratio float64 // columns over rows
	at    func(u, v float64) r3.Vec
}

const degree = math.Pi / 180

var surfaces = []surface{
	{"gore 45°, latitude 0–60°", 0.95, func(u, v float64) r3.Vec { return sphere(45*(u-0.5), 60*v) }},
	{"gore 180°, latitude 0–85°", 0.7, func(u, v float64) r3.Vec { return sphere(180*(u-0.5), 85*v) }},
	{"shank, 120° round", 0.7, func(u, v float64) r3.Vec {
		s, c := math.Sincos(120 * (u - 0.5) * degree)
		r := 90 + 28*math.Sin(math.Pi*v)
		return r3.Vec{X: r * s, Y: 350 * v, Z: r * c}
	}},
	{"saddle", 1, func(u, v float64) r3.Vec {
		x, y := 200*(u-0.5), 200*(v-0.5)
		return r3.Vec{X: x, Y: y, Z: 0.0025 * (x*x - y*y)}
	}},
}

func sphere(longitude, latitude float64) r3.Vec {
	s, c := math.Sincos(latitude * degree)
	ls, lc := math.Sincos(longitude * degree)
	return r3.Vec{X: 100 * c * ls, Y: 100 * s, Z: 100 * c * lc}
}

// mesh has about as many triangles as asked.
func (s surface) mesh(triangles float64) mesh {
	m := int(math.Round(math.Sqrt(triangles / 2 / s.ratio)))
	n := int(math.Round(triangles / 2 / float64(m)))
	rows := flatten.GridRows(m+1, n+1)
	out := mesh{name: s.name, t: rows.Triangles()}
	for i := range m + 1 {
		for j := range n + 1 {
			out.v = append(out.v, s.at(float64(j)/float64(n), float64(i)/float64(m)))
		}
	}
	return out
}
