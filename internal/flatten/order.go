package flatten

import (
	"cmp"
	"slices"
)

// bestOrder gives each vertex its place in the order of solving: as numbered, or
// by reverse Cuthill–McKee, whichever makes less work.
//
// Source: Cuthill and McKee, "Reducing the bandwidth of sparse symmetric
// matrices", 24th ACM conference, 1969; George's reversal of it.
func bestOrder(links [][]int) []int {
	asGiven := make([]int, len(links))
	for i := range asGiven {
		asGiven[i] = i
	}
	other := reverseCuthillMcKee(links)
	if orderWork(links, other) < orderWork(links, asGiven) {
		return other
	}
	return asGiven
}

// orderWork is what a factorisation costs in an order.
func orderWork(links [][]int, place []int) int {
	sum := 0
	for v, near := range links {
		first := place[v]
		for _, w := range near {
			first = min(first, place[w])
		}
		width := place[v] - first + 1
		sum += width * width
	}
	return sum
}

func reverseCuthillMcKee(links [][]int) (place []int) {
	place = make([]int, len(links))
	// Twice to the far end of the graph: a start near a tip gives short levels.
	start := 0
	for range 3 {
		seen := breadthFirst(links, start, place)
		start = seen[len(seen)-1]
	}
	seen := breadthFirst(links, start, place)
	for i, v := range seen {
		place[v] = len(seen) - 1 - i
	}
	return place
}

// breadthFirst lists the vertices that can be reached from start, near ones
// first and among neighbours those with few links first. mark is room to work.
func breadthFirst(links [][]int, start int, mark []int) []int {
	for i := range mark {
		mark[i] = 0
	}
	mark[start] = 1
	queue := append(make([]int, 0, len(links)), start)
	var fresh []int
	for i := 0; i < len(queue); i++ {
		fresh = fresh[:0]
		for _, w := range links[queue[i]] {
			if mark[w] == 0 {
				mark[w] = 1
				fresh = append(fresh, w)
			}
		}
		slices.SortFunc(fresh, func(a, b int) int {
			return cmp.Or(len(links[a])-len(links[b]), a-b)
		})
		queue = append(queue, fresh...)
	}
	return queue
}
