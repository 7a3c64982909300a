package flatten

import (
	"fmt"
	"slices"
)

// Dart cuts triangles over n vertices along a path of edges from the border to a
// tip inside. It gives the cut triangles and, for each vertex that was added
// (from n up), the one it came apart from. Walking from the border to the tip,
// new vertices are on the left.
func Dart(n int, t [][3]int, path []int) (cut [][3]int, twins []int, err error) {
	left := map[[2]int]int{} // the triangle on the left of each edge
	for k, tri := range t {
		for c := range 3 {
			left[[2]int{tri[c], tri[(c+1)%3]}] = k
		}
	}
	cut = slices.Clone(t)
	for k := range len(path) - 1 {
		before := -1
		if k > 0 {
			before = path[k-1]
		}
		at, next := path[k], path[k+1]
		if _, ok := left[[2]int{at, next}]; !ok {
			return nil, nil, fmt.Errorf("a dart must run along edges inside the panel; points %d and %d have none", at, next)
		}
		for next != before {
			tri, ok := left[[2]int{at, next}]
			if !ok {
				break
			}
			corner := slices.Index(t[tri][:], at)
			cut[tri][corner] = n + k
			next = t[tri][(corner+2)%3]
		}
		twins = append(twins, at)
	}
	return cut, twins, nil
}
