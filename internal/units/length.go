// Package units reads and writes lengths, weights and angles as people type
// them, and holds the one function that rounds what leaves the program. Inside,
// lengths are millimetres, weights are kilograms and angles are radians.
package units

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Unit is a unit of length.
type Unit int

// The units that a maker may choose for a folder.
const (
	None Unit = iota // no unit was chosen
	MM
	CM
	Inch
)

// PerUnit is the number of millimetres in one of the unit. None has none.
func (u Unit) PerUnit() float64 { return [...]float64{0, 1, 10, 25.4}[u] }

// String is the unit's short sign: mm, cm, in.
func (u Unit) String() string { return [...]string{"", "mm", "cm", "in"}[u] }

var unitNames = map[string]Unit{
	"mm": MM, "millimetre": MM, "millimetres": MM, "millimeter": MM, "millimeters": MM,
	"cm": CM, "centimetre": CM, "centimetres": CM, "centimeter": CM, "centimeters": CM,
	"in": Inch, "inch": Inch, "inches": Inch, `"`: Inch, "″": Inch, "”": Inch,
}

// ParseUnit reads a unit's name or sign.
func ParseUnit(s string) (Unit, error) {
	if u, ok := unitNames[strings.ToLower(strings.TrimSpace(s))]; ok {
		return u, nil
	}
	return None, fmt.Errorf("%q is not a unit of length; write mm, cm or in", s)
}

// ParseLength reads a length such as "57.4 cm", "22 5/8 in", "574 mm",
// `22 5/8"`, "1.71 m" or "5 ft 7 in" and gives it in millimetres. A number
// without a unit takes def; if def is None that is an error.
func ParseLength(s string, def Unit) (float64, error) {
	return ParseLengthLike(s, def, "57.4 cm or 22 5/8 in")
}

// ParseLengthLike is ParseLength where a length of quite another size is looked for: the
// error about what is no length gives the example.
func ParseLengthLike(s string, def Unit, example string) (float64, error) {
	if m := feet.FindStringSubmatch(tidy(s)); m != nil {
		return parseFeet(s, m[1], m[2])
	}
	q, err := splitQuantity(s, "a length", example)
	switch {
	case err != nil:
		return 0, err
	case q.unit == "m" || q.unit == "metre" || q.unit == "metres":
		return q.number * 1000, nil
	case q.unit == "" && def == None:
		return 0, fmt.Errorf("%q has no unit; write for example %s cm or %s in", s, q.typed, q.typed)
	case q.unit == "":
		return q.number * def.PerUnit(), nil
	}
	u, err := ParseUnit(q.unit)
	if err != nil {
		return 0, fmt.Errorf("%q: %w", s, err)
	}
	return q.number * u.PerUnit(), nil
}

var feet = regexp.MustCompile(`^(\d+)\s*(?:ft|foot|feet|'|′|’)\s*(.*)$`)

// parseFeet reads what is left after whole feet as inches.
func parseFeet(s, whole, rest string) (float64, error) {
	n, err := strconv.ParseFloat(whole, 64)
	if err != nil || rest == "" {
		return n * 12 * 25.4, err
	}
	mm, err := ParseLength(rest, Inch)
	if err != nil || mm < 0 || mm >= 12*25.4 {
		return 0, fmt.Errorf("%q is not feet and inches; write for example 5 ft 7 1/2 in", s)
	}
	return n*12*25.4 + mm, nil
}

// quantity is a number with what stands after it.
type quantity struct {
	number float64
	typed  string // the number as typed, tidied
	unit   string // in lower case; may be empty
}

// splitQuantity cuts "22 5/8 in" into its number and its unit. A decimal comma
// is not guessed at.
func splitQuantity(s, what, example string) (quantity, error) {
	t := tidy(s)
	if decimalComma.MatchString(t) {
		return quantity{}, fmt.Errorf("%q is not %s: write a decimal point, not a comma", s, what)
	}
	m := numberForm.FindStringSubmatch(t)
	if m == nil || m[2] == "" && m[3] == "" {
		return quantity{}, fmt.Errorf("%q is not %s; write %s, such as %s", s, what, form(what), example)
	}
	v, err := evaluate(m[2], m[3], m[4])
	if err != nil {
		return quantity{}, fmt.Errorf("%q is not %s: %w", s, what, err)
	}
	if m[1] == "-" {
		v = -v
	}
	unit := strings.ToLower(strings.TrimSuffix(m[5], "."))
	return quantity{v, strings.TrimSpace(strings.TrimSuffix(t, m[5])), unit}, nil
}

// The parts are: sign, whole or decimal number, numerator, denominator, unit.
var numberForm = regexp.MustCompile(`^([-+]?)(?:(\d+(?:\.\d*)?|\.\d+))??(?:[ -]?(\d+)/(\d+))? ?([^\d\s./+-][^\d/]*)?$`)

var decimalComma = regexp.MustCompile(`\d,\d`)

// evaluate adds a number and a proper fraction, either of which may be absent.
func evaluate(whole, num, den string) (float64, error) {
	if num != "" && strings.Contains(whole, ".") {
		return 0, fmt.Errorf("it has both a decimal point and a fraction")
	}
	v := number(whole)
	if math.IsInf(v, 0) {
		return 0, fmt.Errorf("it is too large")
	}
	if num == "" {
		return v, nil
	}
	part := number(num) / number(den)
	if math.IsNaN(part) || math.IsInf(part, 0) || whole != "" && part >= 1 {
		return 0, fmt.Errorf("%s/%s is not a proper fraction", num, den)
	}
	return v + part, nil
}

// number reads digits that a pattern has already found to be a number.
func number(digits string) float64 {
	v, _ := strconv.ParseFloat(digits, 64)
	return v
}

var fractionSigns = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8",
	"⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3", "⁄", "/", "−", "-")

// tidy writes fraction signs as digits and every gap as one space.
func tidy(s string) string { return strings.Join(strings.Fields(fractionSigns.Replace(s)), " ") }

// form is what a quantity consists of.
func form(what string) string {
	if what == plainNumber {
		return "a number"
	}
	return "a number and a unit"
}
