package pattern

import (
	"fmt"
	"slices"

	"tasset/body"
)

// dress puts the pieces in an order to put them on: what a piece lies over or
// comes after goes first, and what it is fastened to where nothing speaks
// against it; else by where they are worn, and of one place the order of the costume.
func (set *Set) dress() ([]string, error) {
	n := len(set.Pieces)
	before := make([][]int, n)
	for i := range set.Pieces {
		if s := set.Pieces[i].stands; s != nil {
			before[i] = set.ofTemplates(i, s.after)
		}
	}
	if loop := aroundFrom(before); loop != nil {
		return nil, fmt.Errorf("%s", set.goesRound(loop))
	}
	for i := range set.Pieces {
		s := set.Pieces[i].stands
		if s == nil {
			continue
		}
		for _, j := range set.ofTemplates(i, s.hung) {
			tried := slices.Clone(before[i])
			before[i] = append(before[i], j)
			if aroundFrom(before) != nil {
				before[i] = tried
			}
		}
	}
	var out []string
	done := make([]bool, n)
	for len(out) < n {
		next := -1
		for i := range n {
			ready := !done[i] && !slices.ContainsFunc(before[i], func(j int) bool { return !done[j] })
			if ready && (next < 0 || set.Pieces[i].turn() < set.Pieces[next].turn()) {
				next = i
			}
		}
		done[next] = true
		out = append(out, set.Pieces[next].Name)
	}
	return out, nil
}

// turn is when a piece is put on by where it is worn: the legs while one can bend, the
// head while one can still reach it, the hands last, and then what is carried (common
// practice, no source).
func (p *Piece) turn() int {
	switch p.Segment {
	case body.Foot, body.Shank, body.Thigh:
		return 0
	case body.Torso:
		return 1
	case body.Neck, body.UpperArm, body.Forearm:
		return 2
	case body.Head:
		return 3
	case body.Hand:
		return 4
	}
	switch p.Joint {
	case "ankle", "knee", "hip":
		return 0
	case "shoulder", "elbow":
		return 2
	case "wrist":
		return 4
	}
	return 5
}

// ofTemplates are the other pieces that are made of some templates.
func (set *Set) ofTemplates(i int, names []string) []int {
	var out []int
	for j := range set.Pieces {
		if j != i && set.Pieces[j].Template != "" && slices.Contains(names, set.Pieces[j].Template) {
			out = append(out, j)
		}
	}
	return out
}

// aroundFrom finds pieces that would each come before the other, nil if there
// are none.
func aroundFrom(before [][]int) []int {
	state := make([]int, len(before)) // 1: on the path, 2: done
	var path []int
	var visit func(i int) []int
	visit = func(i int) []int {
		if state[i] == 1 {
			return path[slices.Index(path, i):]
		}
		if state[i] == 2 {
			return nil
		}
		state[i], path = 1, append(path, i)
		for _, j := range before[i] {
			if loop := visit(j); loop != nil {
				return loop
			}
		}
		state[i], path = 2, path[:len(path)-1]
		return nil
	}
	for i := range before {
		if loop := visit(i); loop != nil {
			return slices.Clone(loop)
		}
	}
	return nil
}

func (set *Set) goesRound(loop []int) string {
	said := ""
	for _, i := range loop {
		said += set.Pieces[i].stands.file + " is put on after "
	}
	return said + set.Pieces[loop[0]].stands.file + ": nothing can be put on first; take `after` or `over` out of one of them"
}
