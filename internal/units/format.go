package units

import (
	"fmt"
	"math"
	"strconv"
)

// Format writes a length as a maker measures it: whole millimetres, centimetres
// to one place (19.0: a millimetre counts), inches to the nearest eighth.
func Format(mm float64, u Unit) string {
	switch u {
	case CM:
		return centimetres(mm/10) + " cm"
	case Inch:
		return fraction(mm/25.4, 8) + " in"
	default:
		return decimal(mm, 0) + " mm"
	}
}

// centimetres always have their one place, but nothing has none, and no sign.
func centimetres(v float64) string {
	if s := decimal(v, 1); s == "0" {
		return s
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// FormatFine writes a small length, such as a clearance or a deviation, to a
// tenth of a millimetre, or to a hundredth of an inch where u is Inch.
func FormatFine(mm float64, u Unit) string {
	if u == Inch {
		return decimal(mm/25.4, 2) + " in"
	}
	return decimal(mm, 1) + " mm"
}

// FormatDoubt writes the half width of an interval in the unit of the length
// beside it, with the digits that it is worth: hundredths of an inch, since an
// eighth would tell too little, and tenths of a millimetre below 10 mm.
func FormatDoubt(mm float64, u Unit) string {
	if u == CM || mm >= 10 && u != Inch {
		return Format(mm, u)
	}
	return FormatFine(mm, u)
}

// FormatWeight writes kilograms to half a kilogram, or pounds where u is Inch.
func FormatWeight(kg float64, u Unit) string {
	if u == Inch {
		return decimal(kg/Pound, 0) + " lb"
	}
	return decimal(math.Round(kg*2)/2, 1) + " kg"
}

// FormatLight writes the weight of a light thing: to a gram, from 100 g to ten,
// from 1 kg to a tenth of a kilogram; to a tenth of an ounce, from 10 oz to one,
// where u is Inch.
func FormatLight(kg float64, u Unit) string {
	g, oz := 1000*kg, 16*kg/Pound
	switch {
	case u == Inch && oz < 9.95:
		return decimal(oz, 1) + " oz"
	case u == Inch:
		return decimal(oz, 0) + " oz"
	case g < 99.5:
		return decimal(g, 0) + " g"
	case g < 995:
		return decimal(10*math.Round(g/10), 0) + " g"
	}
	return decimal(kg, 1) + " kg"
}

// decimal writes a number to at most so many places, without a negative zero.
func decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if zero, _ := strconv.ParseFloat(s, 64); zero == 0 {
		return "0"
	}
	short := strconv.FormatFloat(number(trimSign(s)), 'f', -1, 64)
	if s[0] == '-' {
		return "-" + short
	}
	return short
}

func trimSign(s string) string {
	if s[0] == '-' {
		return s[1:]
	}
	return s
}

// fraction writes inches to the nearest part of so many.
func fraction(in float64, den int) string {
	n := int(math.Round(math.Abs(in) * float64(den)))
	sign := ""
	if in < 0 && n > 0 {
		sign = "-"
	}
	whole, part := n/den, n%den
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
