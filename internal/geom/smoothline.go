package geom

import "gonum.org/v1/gonum/spatial/r2"

// SmoothLine runs a curve through points from the first to the last, as
// SmoothRing does; its tangents at the ends are those of the parabola through
// three points.
func SmoothLine(points []r2.Vec, corner []bool, step float64) []r2.Vec {
	n := len(points)
	if n < 2 {
		return append([]r2.Vec(nil), points...)
	}
	ring := append(append([]r2.Vec(nil), points...), beyond(points, n-1, -1), beyond(points, 0, 1))
	line := SmoothRing(ring, append(append([]bool(nil), corner...), true, true), step)
	for i, p := range line { // SmoothRing keeps the points as vertices, in turn
		if p == ring[n] {
			line = line[:i]
			break
		}
	}
	for line[len(line)-1] != points[n-1] {
		line = line[:len(line)-1]
	}
	return line
}

// beyond is the point that would follow the end i of a curve, whose next points
// stand step apart.
func beyond(p []r2.Vec, i, step int) r2.Vec {
	if len(p) < 3 {
		return r2.Sub(r2.Scale(2, p[i]), p[i+step])
	}
	return r2.Add(r2.Scale(3, r2.Sub(p[i], p[i+step])), p[i+2*step])
}
