// Package geom holds the plain geometry that the stages share: polylines,
// closed curves, triangle meshes and frames. Vectors are gonum's r2.Vec and
// r3.Vec; lengths are millimetres.
package geom

// Tolerances are of two kinds that never mix. Rounding is what arithmetic
// loses; detail is what a maker can neither see nor cut.
const (
	// Coincident (rounding): two computed points this near are one point. About
	// 1e3 operations on coordinates of 1e3 mm lose 1e-10 mm; this is far above
	// that and far below any cut.
	Coincident = 1e-6
	// Chord (detail): a polyline may leave the curve it stands for by this
	// much. Half a pencil line is 0.2 mm.
	Chord = 0.05
	// Detail (detail): nobody sees or cuts less than this.
	Detail = 0.1
)
