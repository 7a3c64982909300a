package pattern

import (
	"slices"

	"tasset/pattern/template"
)

// Asking is how far from the body a piece was asked to stay where its foam looks one
// of some ways.
type Asking struct {
	Ways []string // as the template language names them, "front"; none: every other way
	Room float64  // mm
}

// askings are what is asked by the way that the foam looks, in the order of the ways,
// and last the rest; none if it is the same all round.
func askings(d template.Directions, ease byDirection, rest float64) (out []Asking) {
	ways := [...]string{"left", "right", "top", "bottom", "front", "back"}
	if d.Outer.Set() || d.Inner.Set() {
		ways[0], ways[1] = "outer", "inner"
	}
	for i, way := range ways {
		if ease[i] == rest {
			continue
		}
		at := slices.IndexFunc(out, func(a Asking) bool { return a.Room == ease[i] })
		if at < 0 {
			at = len(out)
			out = append(out, Asking{Room: ease[i]})
		}
		out[at].Ways = append(out[at].Ways, way)
	}
	if len(out) > 0 {
		out = append(out, Asking{Room: rest})
	}
	return out
}
