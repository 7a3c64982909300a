package geom

import "gonum.org/v1/gonum/spatial/r2"

// Thin leaves out the vertices of an open polyline that it can do without: every
// one of them lies within a distance of what is left (Douglas and Peucker 1973).
// Of vertices that are equally far to rounding the first one is kept.
func Thin(line []r2.Vec, within float64) []r2.Vec {
	if len(line) < 3 {
		return line
	}
	first, last, far, worst := line[0], line[len(line)-1], 0, within
	for i, p := range line[1 : len(line)-1] {
		if d := DistToSegment(p, first, last); d > worst {
			far, worst = i+1, d+Coincident
		}
	}
	if far == 0 {
		return []r2.Vec{first, last}
	}
	head := Thin(line[:far+1], within)
	return append(head[:len(head)-1:len(head)-1], Thin(line[far:], within)...)
}
