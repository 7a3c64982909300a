package geom

import "gonum.org/v1/gonum/spatial/r3"

// Frame is a right-handed orthonormal frame: an origin and three unit axes,
// given in the coordinates of the parent. It maps local points into the parent.
type Frame struct {
	O       r3.Vec
	X, Y, Z r3.Vec
}

// Identity is the parent's own frame.
func Identity() Frame {
	return Frame{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
}

// Point maps a local point into the parent.
func (f Frame) Point(p r3.Vec) r3.Vec { return r3.Add(f.O, f.Dir(p)) }

// Dir maps a local direction into the parent.
func (f Frame) Dir(d r3.Vec) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(d.X, f.X), r3.Scale(d.Y, f.Y)), r3.Scale(d.Z, f.Z))
}

// Local maps a point of the parent into the frame.
func (f Frame) Local(p r3.Vec) r3.Vec { return f.LocalDir(r3.Sub(p, f.O)) }

// LocalDir maps a direction of the parent into the frame.
func (f Frame) LocalDir(d r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(d, f.X), Y: r3.Dot(d, f.Y), Z: r3.Dot(d, f.Z)}
}
