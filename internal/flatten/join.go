package flatten

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Join is the motion that lays the next run of a folded panel beside the one
// that is already laid. Both fold edges run the same way (from P to Q when runs
// follow each other along their rails), the laid run is on the left of its
// edge and the next run on the right of its own. The motion makes the edges
// the legs of a symmetric trapezoid that is gapStart wide at their starts and
// gapEnd at their ends; a negative gap lets the runs overlap.
//
// Runs of foam that hinge on the outer face are apart by 2(1-k)·t·tan(fold/2)
// on the neutral surface, runs that hinge on the inner face overlap by
// 2k·t·tan(fold/2). Source: the mitre setback t·tan(fold/2) of two plates.
//
// The edges have equal lengths; should they differ, their middles are opposite
// each other. Gaps that differ by more than twice the edge cannot be met and
// are met as nearly as can be.
func Join(laid, next [2]r2.Vec, gapStart, gapEnd float64) geom.Rigid {
	edge := r2.Sub(laid[1], laid[0])
	lean := math.Asin(min(max((gapEnd-gapStart)/(2*r2.Norm(edge)), -1), 1))
	tilt := geom.Turned(-lean, r2.Vec{})
	axis := tilt.Dir(r2.Unit(edge))
	right := r2.Vec{X: axis.Y, Y: -axis.X}
	middle := r2.Add(midpoint(laid), r2.Scale((gapStart+gapEnd)/2, right))

	from, to := r2.Sub(next[1], next[0]), tilt.Dir(axis)
	m := geom.Turned(math.Atan2(r2.Cross(from, to), r2.Dot(from, to)), r2.Vec{})
	m.Shift = r2.Sub(middle, m.Dir(midpoint(next)))
	return m
}

func midpoint(edge [2]r2.Vec) r2.Vec { return r2.Scale(0.5, r2.Add(edge[0], edge[1])) }
