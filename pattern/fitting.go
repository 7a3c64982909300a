package pattern

import (
	"fmt"
	"maps"
	"slices"
)

// changed are notes on what a fitting changed.
func changed(adjust map[string]Value) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(adjust)) {
		note := fmt.Sprintf("After a fitting: %s changed by %s.", name, adjust[name].Typed)
		if name == "length" {
			note = fmt.Sprintf("After a fitting: length changed by %s; of a piece that is open at both ends, half at either rim.", adjust[name].Typed)
		}
		out = append(out, note)
	}
	return out
}
