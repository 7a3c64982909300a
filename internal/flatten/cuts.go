package flatten

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Cut is a way to cut a panel that is strained too much.
type Cut struct {
	// Path is vertices joined by edges, from the border inwards. A seam ends on
	// the border again, a dart inside, at its tip.
	Path []int
	Seam bool
	// Swell is the largest |u| that is left, u being the logarithm of flat over
	// shell when angles are kept. The strain of a panel held at its border is
	// 0.5 to 0.8 of it (95 % of the area stay below that).
	Swell float64
}

// dartDepths are the parts of a line that are tried as darts.
var dartDepths = []float64{0.5, 0.75}

// Swell is the largest |u| of a panel with its vertices at v, and the vertex it
// is at: a cut through there helps most. It takes one linear solve and foretells
// the strain: see Cut.
func (p *Patch) Swell(v []r3.Vec) (swell float64, at int, err error) {
	tri, err := p.atRest(v)
	if err != nil {
		return 0, 0, err
	}
	swell, place := p.swell(tri, p.onBorder())
	return swell, slices.Index(p.place, place), nil
}

// Cuts tries a seam along each line, and darts from both of its ends, and gives
// them with the least |u| first. Lines run along edges from border to border;
// those worth trying go through the vertex that Swell names. Darts whose legs
// would lie on each other are left out: where a panel curves like a saddle it
// takes a seam, or foam let in.
//
// On all panels that were tried the best of the first three darts was within a
// twentieth of the best of all; flatten three to choose. A dart of three
// quarters does as well as a seam.
func (p *Patch) Cuts(v []r3.Vec, lines [][]int) ([]Cut, error) {
	tri, err := p.atRest(v)
	if err != nil {
		return nil, err
	}
	var cuts []Cut
	for _, line := range lines {
		if err := p.checkLine(line); err != nil {
			return nil, err
		}
		more, err := p.along(v, line)
		if err != nil {
			return nil, err
		}
		cuts = append(cuts, more...)
	}
	for i := range cuts {
		held := p.onBorder()
		for k, vertex := range cuts[i].Path {
			if cuts[i].Seam || k < len(cuts[i].Path)-1 {
				held[p.place[vertex]] = true
			}
		}
		cuts[i].Swell, _ = p.swell(tri, held)
	}
	slices.SortStableFunc(cuts, func(a, b Cut) int {
		return cmp.Compare(math.Round(a.Swell*1e9), math.Round(b.Swell*1e9))
	})
	return cuts, nil
}

// along is the seam along a line and the darts that open.
func (p *Patch) along(v []r3.Vec, line []int) ([]Cut, error) {
	cuts := []Cut{{Path: line, Seam: true}}
	back := slices.Clone(line)
	slices.Reverse(back)
	for _, depth := range dartDepths {
		for _, from := range [][]int{line, back} {
			path := dart(v, from, depth)
			opens, err := p.opens(v, path)
			if err != nil {
				return nil, err
			}
			if opens {
				cuts = append(cuts, Cut{Path: path})
			}
		}
	}
	return cuts, nil
}

// opens tells whether the legs of a dart come apart when the panel is laid flat
// by angles.
func (p *Patch) opens(v []r3.Vec, path []int) (bool, error) {
	if len(path) < 2 {
		return false, nil
	}
	tris, twins, err := Dart(len(v), p.t, path)
	if err != nil {
		return false, err
	}
	cut := slices.Clip(v)
	for _, i := range twins {
		cut = append(cut, v[i])
	}
	q, err := Prepare(len(cut), tris)
	if err != nil {
		return false, err
	}
	tri, err := q.atRest(cut)
	if err != nil {
		return false, err
	}
	st, ok := q.begin(tri, q.BorderLengths(cut))
	if !ok {
		return false, nil
	}
	ring := make([]r2.Vec, len(q.loop))
	for k, at := range q.loop {
		ring[k] = r2.Vec{X: real(st.z[at]), Y: imag(st.z[at])}
	}
	_, _, crosses := geom.Crossing(ring)
	return !crosses, nil
}

// dart is the part of a line to the vertex nearest to a part of its length.
func dart(v []r3.Vec, line []int, depth float64) []int {
	places := make([]r3.Vec, len(line))
	for k, i := range line {
		places[k] = v[i]
	}
	cum := geom.Lengths(places)
	tip := 0
	for k := range cum[:len(cum)-1] {
		if math.Abs(cum[k]-depth*cum[len(cum)-1]) < math.Abs(cum[tip]-depth*cum[len(cum)-1]) {
			tip = k
		}
	}
	return line[: tip+1 : tip+1]
}

func (p *Patch) checkLine(line []int) error {
	onBorder := p.onBorder()
	for k, i := range line {
		if i < 0 || i >= len(p.place) {
			return fmt.Errorf("a line to cut along has point %d; the panel's points are 0 to %d", i, len(p.place)-1)
		}
		end := k == 0 || k == len(line)-1
		if onBorder[p.place[i]] != end {
			return fmt.Errorf("a line to cut along must lead from border to border through the inside; its point %d (of %d) does not", k, len(line))
		}
	}
	if len(line) < 3 {
		return fmt.Errorf("a line to cut along has %d points; it takes three", len(line))
	}
	return nil
}

// swell is the largest |u| with the places of held at 0, and its place.
func (p *Patch) swell(tri []element, held []bool) (most float64, place int) {
	lap := newLaplacian(tri, held)
	if !lap.ok {
		return math.Inf(1), 0
	}
	u, _ := p.conformal(tri, lap)
	for at, x := range u {
		if x = math.Abs(x); x > most {
			most, place = x, at
		}
	}
	return most, place
}
