package flatten

import (
	"errors"
	"fmt"
	"slices"
)

// Patch is how the triangles of a formed panel hang together: a disc, its border
// and an order in which its equations are solved. It is made once; the panel is
// then flattened for as many places of its vertices and as many border lengths
// as are wanted, by several goroutines if need be.
//
// How fine: 1,000 triangles put the outline of an ordinary panel within 0.1 mm
// of what ever finer ones give, 2,000 are a good habit, strong saddles take
// 4,000 (measured: halving the edges divides the error by about four).
//
// Triangles run counter-clockwise seen from the show face, and so does the
// border.
type Patch struct {
	t      [][3]int // as given
	place  []int    // of each vertex in the order of solving
	sorted []sorted // the triangles by places
	loop   []int    // the border, by places
	border []int    // the border, as given
	plain  *envelope
	bent   *envelope // with room for the bending of the border
}

// sorted is a triangle by the places of its vertices, rising; corner says
// which corner of the given triangle each one is.
type sorted struct {
	at     [3]int
	corner [3]int
}

// Prepare takes the triangles over n vertices. Any disc will do; rows of a grid
// along its short side are solved fastest.
//
// It is an error when they do not make one disc: holes, loose parts, edges with
// more than two triangles or triangles turned different ways.
func Prepare(n int, t [][3]int) (*Patch, error) {
	if err := checkTriangles(n, t); err != nil {
		return nil, err
	}
	links, border, err := edges(n, t)
	if err != nil {
		return nil, err
	}
	if reached := len(breadthFirst(links, 0, make([]int, n))); reached < n {
		return nil, fmt.Errorf("the panel is in several parts: only %d of its %d points hang together", reached, n)
	}
	if n-(len(t)*3+len(border))/2+len(t) != 1 {
		return nil, errors.New("the panel has holes or handles; it must be one piece of foam with one border")
	}
	p := &Patch{t: t, border: border, place: bestOrder(links)}
	for _, v := range border {
		p.loop = append(p.loop, p.place[v])
	}
	for _, tri := range t {
		p.sorted = append(p.sorted, p.sort(tri))
	}
	p.plain = newEnvelope(p.firsts(false))
	p.bent = newEnvelope(p.firsts(true))
	return p, nil
}

// Border is the loop of border vertices, counter-clockwise seen from the show
// face, from the one with the lowest index. Its edge k runs from vertex k to the
// next, the last one back to the first.
func (p *Patch) Border() []int { return slices.Clone(p.border) }

func (p *Patch) sort(t [3]int) sorted {
	s := sorted{corner: [3]int{0, 1, 2}}
	slices.SortFunc(s.corner[:], func(a, b int) int { return p.place[t[a]] - p.place[t[b]] })
	for i, c := range s.corner {
		s.at[i] = p.place[t[c]]
	}
	return s
}

// firsts is, for each place, the lowest place that its equations mention.
func (p *Patch) firsts(bending bool) []int {
	first := make([]int, len(p.place))
	for i := range first {
		first[i] = i
	}
	for _, s := range p.sorted {
		first[s.at[1]] = min(first[s.at[1]], s.at[0])
		first[s.at[2]] = min(first[s.at[2]], s.at[0])
	}
	if bending {
		n := len(p.loop)
		for k, b := range p.loop {
			a, c := p.loop[(k+n-1)%n], p.loop[(k+1)%n]
			for _, i := range []int{a, b, c} {
				first[i] = min(first[i], a, b, c)
			}
		}
	}
	return first
}

func checkTriangles(n int, t [][3]int) error {
	if len(t) == 0 {
		return errors.New("the panel has no triangles")
	}
	for k, tri := range t {
		for _, v := range tri {
			if v < 0 || v >= n {
				return fmt.Errorf("triangle %d of the panel has point %d; the points are 0 to %d", k, v, n-1)
			}
		}
		if tri[0] == tri[1] || tri[1] == tri[2] || tri[2] == tri[0] {
			return fmt.Errorf("triangle %d of the panel has one point twice: %v", k, tri)
		}
	}
	return nil
}

// edges finds the neighbours of each vertex and the border loop.
func edges(n int, t [][3]int) (links [][]int, border []int, err error) {
	half := make([][2]int, 0, 3*len(t))
	for _, tri := range t {
		for k := range 3 {
			half = append(half, [2]int{tri[k], tri[(k+1)%3]})
		}
	}
	byEnds := func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	}
	slices.SortFunc(half, byEnds)
	links, next := make([][]int, n), make([]int, n)
	for i := range next {
		next[i] = -1
	}
	open := 0
	for i, e := range half {
		if i > 0 && half[i-1] == e {
			return nil, nil, fmt.Errorf("at the edge from point %d to %d of the panel more than two triangles meet, or they are turned different ways", e[0], e[1])
		}
		links[e[0]] = append(links[e[0]], e[1])
		if _, twin := slices.BinarySearchFunc(half, [2]int{e[1], e[0]}, byEnds); twin {
			continue
		}
		links[e[1]] = append(links[e[1]], e[0])
		if next[e[0]] >= 0 {
			return nil, nil, fmt.Errorf("the panel's border touches itself at point %d", e[0])
		}
		next[e[0]] = e[1]
		open++
	}
	border, err = loop(next, open)
	return links, border, err
}

// loop follows the border from its lowest vertex.
func loop(next []int, open int) ([]int, error) {
	start := slices.IndexFunc(next, func(v int) bool { return v >= 0 })
	if start < 0 {
		return nil, errors.New("the panel has no border: it closes on itself; cut it first")
	}
	border := []int{start}
	for v := next[start]; v != start; v = next[v] {
		if v < 0 || len(border) > open {
			return nil, errors.New("the panel's border is not one loop")
		}
		border = append(border, v)
	}
	if len(border) != open {
		return nil, fmt.Errorf("the panel has more than one border (%d of %d border edges make a loop): it has a hole or is in several parts", len(border), open)
	}
	return border, nil
}
