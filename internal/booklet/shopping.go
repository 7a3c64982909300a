package booklet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// good is one line of the shopping list: bands of a kind and width.
type good struct {
	kind   string
	width  float64
	count  int
	length float64 // of all of them, mm
	more   bool    // some are as long as the maker measures
}

// shopping lists what is bought beside foam and glue: bands, one line for each
// kind and width, and small parts by their number.
func shopping(pieces []pattern.Piece, u units.Unit) []entry {
	var bands []good
	for i := range pieces {
		for _, s := range pieces[i].Straps {
			bands = add(bands, s)
		}
	}
	slices.SortStableFunc(bands, func(a, b good) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(b.width, a.width))
	})
	var out []entry
	for _, g := range bands {
		said := fmt.Sprintf("%d × %s wide, %s in all", g.count, units.Format(g.width, u), units.Format(g.length, u))
		switch {
		case g.length == 0:
			said = fmt.Sprintf("%d × %s wide, as long as you measure on the wearer", g.count, units.Format(g.width, u))
		case g.more:
			said += ", and those that you measure on the wearer"
		}
		if g.kind == "strap and buckle" {
			said += fmt.Sprintf("; %d buckles of that width", g.count)
		}
		out = append(out, entry{g.kind, said})
	}
	return append(out, parts(pieces)...)
}

func add(bands []good, s pattern.Strap) []good {
	i := slices.IndexFunc(bands, func(g good) bool { return g.kind == s.Kind && math.Abs(g.width-s.Width) < 0.5 })
	if i < 0 {
		bands, i = append(bands, good{kind: s.Kind, width: s.Width}), len(bands)
	}
	g := &bands[i]
	g.count += s.Count
	g.length += float64(s.Count) * s.Length
	g.more = g.more || s.Length == 0
	return bands
}

// smallParts are fastenings that are bought by the piece, and what the texts of
// their marks say.
var smallParts = []struct{ name, says string }{{"magnets", ", + out"}, {"magnets", ", - out"}, {"snaps", ", stud"}}

// parts counts magnets, snaps and rivets by their marks: a rivet goes through
// marks of one number on two panels.
func parts(pieces []pattern.Piece) []entry {
	count := map[string]int{}
	for i := range pieces {
		p := &pieces[i]
		for j := range p.Panels {
			panel := &p.Panels[j]
			for _, m := range panel.Marks {
				if m.Kind != "fastening" {
					continue
				}
				for _, part := range smallParts {
					if strings.Contains(m.Text, part.says) {
						count[part.name] += panel.Copies
					}
				}
				if strings.HasPrefix(m.Text, "rivet ") {
					count["rivets"] += panel.Copies
				}
			}
		}
	}
	count["rivets"] /= 2
	var out []entry
	for _, name := range []string{"magnets", "snaps", "rivets"} {
		if count[name] > 0 {
			out = append(out, entry{name, fmt.Sprint(count[name])})
		}
	}
	return out
}
