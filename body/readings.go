package body

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tasset/internal/units"
)

// reading is another way to read what a maker typed.
type reading struct {
	value float64 // mm, kg
	text  string  // in the unit typed: "17.4 in (442 mm)"
}

// readings lists what the maker may have meant: another unit, a slipped decimal
// point, two neighbouring digits swapped, and a girth doubled or halved. The
// commonest slips come first. What was taken over a layer is read through it.
func readings(e Entry, d Description) []reading {
	number, unit := splitTyped(e)
	if number == "" {
		return nil
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || v == 0 {
		return nil
	}
	per := (e.Value + offSkin(e, v*unit.per)) / v // of one unit typed
	offset := v*per - e.Value                     // what a layer took off
	var out []reading
	add := func(value float64, format string, args ...any) {
		out = append(out, reading{value - offset, fmt.Sprintf(format, args...)})
	}
	for _, u := range otherUnits(d) {
		if u.sign != unit.sign {
			add(v*u.per, "%s %s", number, u.sign)
		}
	}
	for _, k := range []float64{10, 0.1} {
		add(v*per*k, "%s %s", decimal(v*k), unit.sign)
	}
	for _, swapped := range swaps(number) {
		w, _ := strconv.ParseFloat(swapped, 64)
		add(w*per, "%s %s", swapped, unit.sign)
	}
	if d.Kind == KindGirth {
		add(v*per/2, "%s %s, half of it", decimal(v/2), unit.sign)
		add(v*per*2, "%s %s, twice as much", decimal(v*2), unit.sign)
	}
	return out
}

type typedUnit struct {
	sign string
	per  float64 // mm or kg in one
}

// otherUnits are the units that a size may have been meant in.
func otherUnits(d Description) []typedUnit {
	if d.Kind == KindWeight {
		return []typedUnit{{"kg", 1}, {"lb", 0.45359237}}
	}
	return []typedUnit{{"in", 25.4}, {"cm", 10}, {"mm", 1}}
}

// splitTyped cuts an entry into its decimal number and its unit. A fraction of
// an inch is turned into a decimal number; what cannot be cut is read as mm.
func splitTyped(e Entry) (string, typedUnit) {
	d, _ := Describe(e.Name)
	fields := strings.Fields(e.Typed)
	if len(fields) == 2 && !strings.Contains(fields[0], "/") {
		for _, u := range otherUnits(d) {
			if p, err := units.ParseUnit(fields[1]); fields[1] == u.sign || (err == nil && p.String() == u.sign) {
				return fields[0], u
			}
		}
	}
	if len(fields) == 3 && strings.Contains(fields[1], "/") {
		if mm, err := units.ParseLength(e.Typed, units.None); err == nil {
			return decimal(mm / 25.4), typedUnit{"in", 25.4}
		}
	}
	if d.Kind == KindWeight {
		return decimal(e.Value), typedUnit{"kg", 1}
	}
	return strconv.FormatFloat(math.Round(e.Value), 'f', -1, 64), typedUnit{"mm", 1}
}

// offSkin is what a layer took off an entry: what was typed less its value. Less
// than a millimetre is rounding.
func offSkin(e Entry, typed float64) float64 {
	if off := typed - e.Value; e.Over != "" && e.Over != "skin" && math.Abs(off) > 1 {
		return off
	}
	return 0
}

func decimal(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// swaps lists a number with each two neighbouring digits swapped, across the
// decimal point too.
func swaps(number string) []string {
	var out []string
	digits := []byte(number)
	for i := range digits {
		j := i + 1
		if j < len(digits) && digits[j] == '.' {
			j++
		}
		if digits[i] == '.' || j >= len(digits) || digits[i] == digits[j] {
			continue
		}
		s := append([]byte(nil), digits...)
		s[i], s[j] = s[j], s[i]
		if s[0] != '0' {
			out = append(out, string(s))
		}
	}
	return out
}
