// Package units reads and writes lengths and angles as people type them, and
// holds the one function that rounds what leaves the program. Inside, lengths
// are millimetres and angles are radians.
package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Unit is a unit of length.
type Unit int

// The units that a maker may write.
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
	"in": Inch, "inch": Inch, "inches": Inch, `"`: Inch, "″": Inch,
}

// ParseUnit reads a unit's name or sign.
func ParseUnit(s string) (Unit, error) {
	if u, ok := unitNames[strings.ToLower(strings.TrimSpace(s))]; ok {
		return u, nil
	}
	return None, fmt.Errorf("%q is not a unit of length; write mm, cm or in", s)
}

// ParseLength reads a length such as "57.4 cm", "22 5/8 in", "574 mm" or
// `22 5/8"` and gives it in millimetres. A number without a unit takes def; if
// def is None that is an error.
func ParseLength(s string, def Unit) (float64, error) {
	number, unit := splitUnit(strings.TrimSpace(s))
	if number == "" {
		return 0, fmt.Errorf("%q is not a length; write a number and a unit, such as 57.4 cm or 22 5/8 in", s)
	}
	v, err := parseNumber(number)
	if err != nil {
		return 0, fmt.Errorf("%q is not a length: %w", s, err)
	}
	u := def
	if unit != "" {
		if u, err = ParseUnit(unit); err != nil {
			return 0, fmt.Errorf("%q: %w", s, err)
		}
	}
	if u == None {
		return 0, fmt.Errorf("%q has no unit; write for example %s cm or %s in", s, number, number)
	}
	return v * u.PerUnit(), nil
}

// splitUnit cuts a length into its number and its unit, either may be empty.
func splitUnit(s string) (number, unit string) {
	i := strings.LastIndexAny(s, "0123456789½¼¾⅛⅜⅝⅞.")
	if i < 0 {
		return "", s
	}
	for i++; i < len(s) && s[i]&0xC0 == 0x80; i++ { // to the end of a multi-byte fraction sign
	}
	return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i:])
}

var signs = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "−", "-")

// parseNumber reads a decimal number, a fraction, or a whole number and a
// fraction ("22 5/8"). A decimal comma is not guessed at.
func parseNumber(s string) (float64, error) {
	fields := strings.Fields(signs.Replace(s))
	if strings.Contains(s, ",") {
		return 0, fmt.Errorf("write a decimal point, not a comma")
	}
	switch len(fields) {
	case 1:
		return parseTerm(fields[0])
	case 2:
		whole, err := strconv.Atoi(fields[0])
		if err != nil || !strings.Contains(fields[1], "/") {
			return 0, fmt.Errorf("%q is not a number and a fraction such as 22 5/8", s)
		}
		part, err := parseTerm(fields[1])
		if err != nil {
			return 0, err
		}
		return float64(whole) + math.Copysign(part, float64(whole)), nil
	}
	return 0, fmt.Errorf("%q is not one number", s)
}

func parseTerm(s string) (float64, error) {
	num, den, isFraction := strings.Cut(s, "/")
	a, err := strconv.ParseFloat(num, 64)
	if err != nil || math.IsInf(a, 0) || math.IsNaN(a) {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	if !isFraction {
		return a, nil
	}
	b, err := strconv.ParseFloat(den, 64)
	if err != nil || b <= 0 {
		return 0, fmt.Errorf("%q is not a fraction", s)
	}
	return a / b, nil
}

// Format writes a length as a maker measures it: whole millimetres, centimetres
// to one place, inches to the nearest eighth.
func Format(mm float64, u Unit) string {
	switch u {
	case CM:
		return trimZero(strconv.FormatFloat(mm/10, 'f', 1, 64)) + " cm"
	case Inch:
		return eighths(mm/25.4) + " in"
	default:
		return trimZero(strconv.FormatFloat(mm, 'f', 0, 64)) + " mm"
	}
}

func trimZero(s string) string {
	if s == "-0" || s == "-0.0" {
		return s[1:]
	}
	return s
}

func eighths(in float64) string {
	n := int(math.Round(math.Abs(in) * 8))
	sign := ""
	if in < 0 && n > 0 {
		sign = "-"
	}
	whole, part, den := n/8, n%8, 8
	for part > 0 && part%2 == 0 {
		part, den = part/2, den/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, part, den)
	default:
		return fmt.Sprintf("%s%d %d/%d", sign, whole, part, den)
	}
}
