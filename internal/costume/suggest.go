package costume

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// withUnitOf suggests how a length was meant that has no unit: in that which puts it in
// the setting's range.
func withUnitOf(s template.Setting, typed string) string {
	n, _ := units.ParseNumber(typed)
	for _, u := range []units.Unit{units.MM, units.CM, units.Inch} {
		if mm := n * u.PerUnit(); inReach(s, mm) {
			other := units.Inch
			if u == units.Inch {
				other = units.MM
			}
			return fmt.Sprintf("for example %s %s or %s", typed, u, units.Format(mm, other))
		}
	}
	return fmt.Sprintf("it with one, from %s", reachIn(s, ""))
}

// reachIn is a setting's range in the unit that was typed, rounded inwards.
func reachIn(s template.Setting, typed string) string {
	u := units.MM
	switch word := strings.TrimLeftFunc(typed, func(r rune) bool { return !unicode.IsLetter(r) && r != '"' }); {
	case s.Unit != "mm":
	case strings.HasPrefix(word, "in"), strings.HasPrefix(word, `"`), strings.HasPrefix(word, "ft"):
		const part = 25.4 / 8
		low, high := math.Ceil(s.Min/part-1e-9)*part, math.Floor(s.Max/part+1e-9)*part
		if low <= high {
			return units.Format(low, units.Inch) + " to " + units.Format(high, units.Inch)
		}
	case strings.HasPrefix(word, "cm"):
		u = units.CM
	}
	if u == units.CM {
		return fmt.Sprintf("%g cm to %g cm", s.Min/10, s.Max/10)
	}
	return ShowSetting(s, s.Min) + " to " + ShowSetting(s, s.Max)
}

// perhapsMeant suggests a piece for a name that there is not: one that is spelled
// alike, else those whose own words have the name in them, else all.
func (c *Catalogue) perhapsMeant(name string) string {
	known := c.Names()
	if k := report.Nearest(name, known); k != "" {
		return fmt.Sprintf("did you mean %q?", k)
	}
	if told := c.telling(name, known); len(told) > 0 {
		return fmt.Sprintf("perhaps %s? \"tasset pieces\" lists all", strings.Join(told, " or "))
	}
	return fmt.Sprintf("there are %s, and your own in the folder \"templates\"", strings.Join(known, ", "))
}

// mostTold is how many pieces are suggested; more tell nothing.
const mostTold = 5

// telling are the pieces that have a word in their names, else in what is told of them,
// else in what is told of their settings.
func (c *Catalogue) telling(word string, known []string) []string {
	var found [3][]string
	for _, k := range known {
		t, err := c.Load(k)
		if err != nil {
			continue
		}
		said := [3]string{k, t.Title + " " + t.About}
		for _, s := range t.Settings {
			said[2] += " " + s.About
		}
		for i := range said {
			if hasWord(said[i], word) {
				found[i] = append(found[i], fmt.Sprintf("%q", k))
				break
			}
		}
	}
	for _, f := range found {
		if len(f) > 0 {
			return f[:min(len(f), mostTold)]
		}
	}
	return nil
}

// hasWord tells whether a text has a word, alone or as a plural.
func hasWord(text, word string) bool {
	word = strings.ToLower(word)
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if w == word || w == word+"s" || w+"s" == word {
			return true
		}
	}
	return false
}
