// Package nest lays flat outlines on rectangles: pages, or sheets and rolls of
// foam. It works on outlines as they are, hollows included.
package nest

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Part is something to be laid: a closed outline (first point not repeated, no
// crossings, either direction), in mm, and the angles by which it may be turned,
// in rad. No angles means that it must lie as it is.
type Part struct {
	Outline []r2.Vec
	Turns   []float64
}

// Sheet is a rectangle from (0, 0) to (Width, Height), in mm. Height 0 is a roll
// without end.
type Sheet struct {
	Width, Height float64
}

// Blocked is a closed outline on a sheet, in sheet coordinates, which is taken
// already.
type Blocked struct {
	Sheet   int
	Outline []r2.Vec
}

// Place is where a part lies: turned by Turn about its own origin and then
// shifted, in the coordinates of sheet number Sheet (from 0). OK is false for a
// part that no empty sheet can hold.
type Place struct {
	Sheet int
	Turn  float64
	Shift r2.Vec
	OK    bool
}

// Rigid is the motion that brings the part to its place.
func (p Place) Rigid() geom.Rigid { return geom.Turned(p.Turn, p.Shift) }
