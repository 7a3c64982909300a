package view

import (
	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// clip gives the parts of a line that are in a box.
func clip(line []r2.Vec, box draw.Rect) [][]r2.Vec {
	if b := geom.Bounds(line); b.Min.X >= box.Min.X && b.Min.Y >= box.Min.Y && b.Max.X <= box.Max.X && b.Max.Y <= box.Max.Y {
		return [][]r2.Vec{line}
	}
	ring := []r2.Vec{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}}
	var out [][]r2.Vec
	for i := range line[:len(line)-1] {
		for _, part := range geom.ClipLine(line[i], line[i+1], ring) {
			if n := len(out); n > 0 && last(out[n-1]) == part[0] {
				out[n-1] = append(out[n-1], part[1])
			} else {
				out = append(out, []r2.Vec{part[0], part[1]})
			}
		}
	}
	return out
}

func last(line []r2.Vec) r2.Vec { return line[len(line)-1] }
