// Package flatten lays surfaces in space out in the plane.
//
// A strip between two rails is triangulated without inside vertices, so it
// unrolls exactly: every edge of every triangle keeps its length. A patch has
// inside vertices and may curve both ways; it is laid flat with the least
// distortion while every edge of its border keeps its length, and what is left
// is what heat must stretch. Vectors are millimetres.
package flatten

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Strip is a triangulated strip between two rails. Its vertices are those of P
// followed by those of Q; vertex v of Q has index len(P)+v.
//
// Seen from the show face (the outside), whoever walks along P from its start
// has Q on the left, and triangles run counter-clockwise. They stand in the
// order in which the strip is walked; each shares a rung (an edge from P to Q)
// with the one before.
//
// The rails may begin or end in one point. It is then in both, and triangles
// use the one in P.
type Strip struct {
	P, Q []r3.Vec
	T    [][3]int
	Cost float64 // Σ |rung|·θ² over the rungs, mm·rad²: how sharply it bends
}

// Flat is a strip laid in the plane: its vertices in the same order. The
// outline, P forward and then Q backward, runs counter-clockwise.
type Flat struct {
	P, Q []r2.Vec
}

// Vertices are the strip's vertices, P then Q.
func (s Strip) Vertices() []r3.Vec { return append(append([]r3.Vec(nil), s.P...), s.Q...) }

// Vertices are the flat strip's vertices, P then Q.
func (f Flat) Vertices() []r2.Vec { return append(append([]r2.Vec(nil), f.P...), f.Q...) }

// Outline is P forward, then Q backward; a point that both rails share stands
// in it once.
func (f Flat) Outline() []r2.Vec {
	out := append([]r2.Vec(nil), f.P...)
	for i := len(f.Q) - 1; i >= 0; i-- {
		shared := i == len(f.Q)-1 && f.Q[i] == f.P[len(f.P)-1] || i == 0 && f.Q[0] == f.P[0]
		if !shared {
			out = append(out, f.Q[i])
		}
	}
	return out
}
