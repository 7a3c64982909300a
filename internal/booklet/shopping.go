package booklet

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
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

const buyTitle = "To buy beside glue"

// shopping lists what is bought beside glue: what the pieces are built on or filled
// with, bands, one line for each kind and width, small parts by their number, and foam
// by its area.
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
	out := things(pieces, u)
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
		out = append(out, entry{stuffOf(g.kind), said})
	}
	out = append(out, sheets(pieces, u)...)
	out = append(out, hooks(pieces, u)...)
	out = append(out, parts(pieces)...)
	return append(out, foam(pieces, u)...)
}

// things lists what the pieces need beside foam and fastenings, each with the piece that
// it is for.
func things(pieces []pattern.Piece, u units.Unit) []entry {
	var out []entry
	for i := range pieces {
		for _, b := range pieces[i].Bought {
			out = append(out, entry{b.Name, fmt.Sprintf("%s, for the %s: %s", ordered(b, u), pieces[i].Name, b.Text)})
		}
	}
	return out
}

// builtOn lists what one piece needs beside foam and fastenings.
func builtOn(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, b := range p.Bought {
		out = append(out, entry{b.Name, ordered(b, u) + ": " + b.Text})
	}
	return out
}

// ordered is how many of a thing to buy, and those of its measures that matter.
func ordered(b pattern.Bought, u units.Unit) string {
	var out []string
	for _, m := range []struct {
		mm     float64
		format func(float64, units.Unit) string
		way    string
	}{{b.Thick, units.FormatSetting, "thick"}, {b.Wide, units.Format, "wide"}, {b.Long, units.Format, "long"}} {
		if m.mm > 0 {
			out = append(out, m.format(m.mm, u)+" "+m.way)
		}
	}
	if len(out) == 0 {
		return fmt.Sprint(b.Count)
	}
	return fmt.Sprintf("%d × %s", b.Count, strings.Join(out, ", "))
}

// sheets lists the parts that are cut by their sizes alone.
func sheets(pieces []pattern.Piece, u units.Unit) []entry {
	var out []entry
	for i := range pieces {
		for _, s := range pieces[i].Sheets {
			out = append(out, entry{s.Of, fmt.Sprintf("%d × %s by %s: the %s of the %s", s.Count, units.Format(s.Long, u), units.Format(s.Broad, u), s.Name, pieces[i].Name)})
		}
	}
	return out
}

// hooks adds up hook-and-loop by its marks: strips along an edge that opens say how
// wide they are, those elsewhere which part they are. Both parts of it are marked, on
// one panel, its copies, or two; or one is, and the other is on a strap or on what the
// maker holds with it.
func hooks(pieces []pattern.Piece, u units.Unit) []entry {
	var length, widest float64
	for i := range pieces {
		for j := range pieces[i].Panels {
			panel := &pieces[i].Panels[j]
			for _, m := range panel.Marks {
				share := hooked(m.Text)
				if m.Kind != "fastening" || !m.Close || len(m.Line) < 3 || share == 0 {
					continue
				}
				a, b := geom.Dist(m.Line[0], m.Line[1]), geom.Dist(m.Line[1], m.Line[2])
				length += share * max(a, b) * float64(having(&pieces[i], panel, m))
				widest = max(widest, min(a, b))
			}
		}
	}
	if length == 0 {
		return nil
	}
	return []entry{{"hook-and-loop", fmt.Sprintf("%s of hooks and as much of loops at least, as the marks are long; the widest is %s wide", units.Format(length, u), units.Format(widest, u))}}
}

// having is how many copies of a panel have one of its marks.
func having(p *pattern.Piece, panel *pattern.Panel, m pattern.Mark) (n int) {
	if m.Only == "" {
		return panel.Copies
	}
	for k := range p.CopiesOf(panel) {
		if p.HasMark(panel, m, k) {
			n++
		}
	}
	return n * max(p.Copies, 1)
}

// hooked is for how much of hooks, and as much of loops, a mark of that text on each
// copy of its panel counts, of its length.
func hooked(text string) float64 {
	switch {
	case strings.Contains(text, " wide"), strings.Contains(text, "on the copy turned over: loops"):
		return 0.5
	case strings.Contains(text, ", loops for the hooks"), strings.Contains(text, "; the loops go on"):
		return 1
	case strings.Contains(text, ", hooks"), strings.Contains(text, ", loops"):
		return 0.5
	}
	return 0
}

// foam adds up what the panels take of each thickness: the least that must be
// bought.
func foam(pieces []pattern.Piece, u units.Unit) []entry {
	type kind struct {
		thick float64
		soft  bool
	}
	area := map[kind]float64{}
	for i := range pieces {
		p := &pieces[i]
		for j := range p.Panels {
			panel := &p.Panels[j]
			if p.MockUp && panel.Role != pattern.Pad {
				continue
			}
			area[kind{units.Round(p.Foam(panel)), panel.Role == pattern.Pad}] += panel.Area() * float64(panel.Copies)
		}
	}
	var out []entry
	for _, k := range slices.SortedFunc(maps.Keys(area), func(a, b kind) int {
		if a.soft != b.soft {
			return map[bool]int{true: 1, false: -1}[a.soft]
		}
		return cmp.Compare(a.thick, b.thick)
	}) {
		name := "foam"
		if k.soft {
			name = "soft foam for pads"
		}
		out = append(out, entry{name + ", " + units.FormatFoam(k.thick, u), fmt.Sprintf("at least %s, and what is lost between the panels", units.FormatSheet(area[k], u))})
	}
	return out
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

// throughTwo are those that go through marks of one number on two panels.
var throughTwo = []struct{ name, says string }{{"rivets", "rivet "}, {"pivots", "pivot "}}

// parts counts magnets, snaps, rivets and pivots by their marks: a rivet goes through
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
				for _, part := range throughTwo {
					if strings.Contains(m.Text, part.says) {
						count[part.name] += panel.Copies
					}
				}
			}
		}
	}
	for _, part := range throughTwo {
		count[part.name] /= 2
	}
	var out []entry
	for _, name := range []string{"magnets", "snaps", "rivets", "pivots"} {
		if count[name] > 0 {
			out = append(out, entry{name, fmt.Sprint(count[name])})
		}
	}
	return out
}
