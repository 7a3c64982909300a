package template

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"unicode/utf8"
)

// maxFormula is the most characters that a formula may have, and maxParens how
// deep its parentheses nest: the expression reader's time grows with both.
const (
	maxFormula = 1000
	maxParens  = 40
)

// unit is what stands behind a number in a formula.
type unit struct {
	factor float64 // to mm, rad or a plain number
	dim    dim
}

var unitsOf = map[string]unit{
	"mm": {1, length}, "cm": {10, length}, "m": {1000, length}, "in": {25.4, length}, "inch": {25.4, length},
	"deg": {math.Pi / 180, angle}, "°": {math.Pi / 180, angle}, "rad": {1, angle},
	"%": {0.01, plain},
}

// unitNames are the units for a message.
var unitNames = func() []string {
	var names []string
	for u := range unitsOf {
		names = append(names, u)
	}
	sort.Strings(names)
	return names
}()

// scanned is a formula's text made ready for the expression reader: units are
// blanked out, so that every character keeps its place.
type scanned struct {
	source string
	units  map[int]unit // by the number's first character
}

// scanFault is what is wrong with a formula, at a character from 0.
type scanFault struct {
	at            int
	said, perhaps string
}

// scan checks a formula's characters and takes the units off its numbers.
func scan(s string) (scanned, *scanFault) {
	if n := utf8.RuneCountInString(s); n > maxFormula {
		return scanned{}, &scanFault{0, fmt.Sprintf("the formula has %d characters", n), fmt.Sprintf("%d is the most", maxFormula)}
	}
	in, out := []rune(s), []rune(s)
	units := map[int]unit{}
	depth := 0
	for i := 0; i < len(in); {
		switch r := in[i]; {
		case digit(r) || r == '.':
			end := numberEnd(in, i)
			unitFrom, unitTo := unitSpan(in, end)
			if fault := takeUnit(in, out, units, i, unitFrom, unitTo); fault != nil {
				return scanned{}, fault
			}
			i = unitTo
		case letter(r):
			i = wordEnd(in, i)
		case r == '"' || r == '\'':
			end := closing(in, i)
			if end < 0 {
				return scanned{}, &scanFault{i, "the quoted word does not end", ""}
			}
			i = end + 1
		case strings.ContainsRune(" +-*/(),<>=!&|", r):
			if r == '(' {
				depth++
			} else if r == ')' {
				depth--
			}
			if depth > maxParens {
				return scanned{}, &scanFault{i, "parentheses nest too deeply", ""}
			}
			i++
		default:
			return scanned{}, &scanFault{i, fmt.Sprintf("a formula has no %q", r), "write arithmetic with + - * / ( ) and names such as wrist_girth"}
		}
	}
	return scanned{string(out), units}, nil
}

func takeUnit(in, out []rune, units map[int]unit, number, from, to int) *scanFault {
	if from == to {
		return nil
	}
	name := string(in[from:to])
	u, ok := unitsOf[name]
	if !ok {
		return &scanFault{from, fmt.Sprintf("%q is not a unit", short(name)), didYouMean(name, unitNames)}
	}
	units[number] = u
	for i := from; i < to; i++ {
		out[i] = ' '
	}
	return nil
}

// unitSpan finds the unit behind a number, empty if none stands there. Words
// that continue an expression are none.
func unitSpan(in []rune, end int) (from, to int) {
	i := end
	for i < len(in) && in[i] == ' ' {
		i++
	}
	if i < len(in) && (in[i] == '°' || in[i] == '%') {
		return i, i + 1
	}
	if i == len(in) || !letter(in[i]) {
		return end, end
	}
	to = wordEnd(in, i)
	if w := string(in[i:to]); w == "and" || w == "or" {
		return end, end
	}
	return i, to
}

// numberEnd is past a decimal number; exponents are not part of the language.
func numberEnd(in []rune, i int) int {
	for i < len(in) && (digit(in[i]) || in[i] == '.') {
		i++
	}
	return i
}

func wordEnd(in []rune, i int) int {
	for i < len(in) && (letter(in[i]) || digit(in[i])) {
		i++
	}
	return i
}

func closing(in []rune, i int) int {
	for j := i + 1; j < len(in); j++ {
		if in[j] == in[i] {
			return j
		}
		if in[j] == '\\' || in[j] == '\n' {
			return -1
		}
	}
	return -1
}

func digit(r rune) bool { return r >= '0' && r <= '9' }
func letter(r rune) bool {
	return r == '_' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
}
