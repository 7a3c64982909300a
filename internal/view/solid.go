package view

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// solid is a mesh with what its triangles share. Corners of neighbouring
// triangles that were computed apart are one place.
type solid struct {
	geom.Mesh
	places []int32 // of each vertex: the first one there
	first  []int32 // round[first[p]:first[p+1]] are the corners in place p
	round  []int32 // corners, 3 × triangle + which of its, rising in each place
}

func newSolid(m geom.Mesh) *solid {
	return (&solid{Mesh: m, places: placesOf(m.V)}).sorted()
}

// sorted lists the corners in each place.
func (s *solid) sorted() *solid {
	s.first, s.round = make([]int32, len(s.V)+1), make([]int32, 3*len(s.T))
	for _, t := range s.T {
		for _, n := range t {
			s.first[s.places[n]]++
		}
	}
	end := int32(0)
	for p, n := range s.first {
		end += n
		s.first[p] = end
	}
	for i := len(s.T) - 1; i >= 0; i-- { // each list is filled from its end
		for k := 2; k >= 0; k-- {
			p := s.places[s.T[i][k]]
			s.first[p]--
			s.round[s.first[p]] = int32(3*i + k)
		}
	}
	return s
}

// at are the corners in a place.
func (s *solid) at(place int32) []int32 { return s.round[s.first[place]:s.first[place+1]] }

// side are the places at which a triangle's side begins and ends: that from its
// corner k to the next.
func (s *solid) side(tri, k int) (from, to int32) {
	t := s.T[tri]
	return s.places[t[k]], s.places[t[(k+1)%3]]
}

// across is the triangle on the other side of a side, -1 at the rim.
func (s *solid) across(tri, k int) int {
	from, to := s.side(tri, k)
	other := -1
	for _, c := range s.at(to) {
		if i, j := int(c)/3, int(c)%3; s.places[s.T[i][(j+1)%3]] == from {
			other = i
		}
	}
	return other
}

// placesOf numbers places by the first vertex in each. They are kept in a table
// by a hash of the place, as there are many.
func placesOf(points []r3.Vec) []int32 {
	size := 1
	for size < 2*len(points) {
		size *= 2
	}
	table := make([]int32, size) // a vertex + 1
	spots := make([]spot, len(points))
	places := make([]int32, len(points))
	for i, p := range points {
		s := spotOf(p)
		spots[i] = s
		at := s.hash() & uint64(size-1)
		for table[at] != 0 && spots[table[at]-1] != s {
			at = (at + 1) & uint64(size-1)
		}
		if table[at] == 0 {
			table[at] = int32(i + 1)
		}
		places[i] = table[at] - 1
	}
	return places
}

// spot is a place, rounded so that corners of neighbouring triangles that were
// computed apart are one.
type spot [3]int64

func spotOf(p r3.Vec) spot {
	const per = 1e4 // rounding: a ten-thousandth of a millimetre
	return spot{int64(math.Round(p.X * per)), int64(math.Round(p.Y * per)), int64(math.Round(p.Z * per))}
}

// hash mixes the three numbers with odd constants (any would do).
func (s spot) hash() uint64 {
	h := uint64(s[0])*0x9e3779b97f4a7c15 ^ uint64(s[1])*0xc2b2ae3d27d4eb4f ^ uint64(s[2])*0x165667b19e3779f9
	return (h ^ h>>29) * 0x9e3779b97f4a7c15 >> 20
}
