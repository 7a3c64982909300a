package units

import (
	"fmt"
	"math"
)

// Pound is one pound in kilograms (the international avoirdupois pound, exact).
const Pound = 0.45359237

// ParseWeight reads "64 kg" or "141 lb" and gives kilograms. A number without
// a unit is an error: nobody can tell which was meant.
func ParseWeight(s string) (float64, error) {
	q, err := splitQuantity(s, "a weight", "64 kg or 141 lb")
	if err != nil {
		return 0, err
	}
	switch q.unit {
	case "kg", "kilo", "kilos", "kilogram", "kilograms":
		return q.number, nil
	case "lb", "lbs", "pound", "pounds":
		return q.number * Pound, nil
	case "":
		return 0, fmt.Errorf("%q has no unit; write %s kg or %s lb", s, q.typed, q.typed)
	}
	return 0, fmt.Errorf("%q: %q is not a unit of weight; write kg or lb", s, q.unit)
}

// ParseAngle reads "35 deg" or "35°" and gives radians.
func ParseAngle(s string) (float64, error) {
	q, err := splitQuantity(s, "an angle", "35 deg")
	if err != nil {
		return 0, err
	}
	switch q.unit {
	case "deg", "degree", "degrees", "°":
		return Rad(q.number), nil
	case "":
		return 0, fmt.Errorf("%q has no unit; write %s deg", s, q.typed)
	}
	return 0, fmt.Errorf("%q: %q is not a unit of angle; write deg", s, q.unit)
}

// ParsePercent reads "5 %" and gives 0.05.
func ParsePercent(s string) (float64, error) {
	q, err := splitQuantity(s, "a percentage", "5 %")
	if err != nil {
		return 0, err
	}
	switch q.unit {
	case "%":
		return q.number / 100, nil
	case "":
		return 0, fmt.Errorf("%q has no %%; write %s %%", s, q.typed)
	}
	return 0, fmt.Errorf("%q: %q is not a percentage; write for example 5 %%", s, q.unit)
}

const plainNumber = "a plain number"

// ParseNumber reads a plain number without a unit: "0.55", "1/2", "8".
func ParseNumber(s string) (float64, error) {
	q, err := splitQuantity(s, plainNumber, "8")
	if err != nil {
		return 0, err
	}
	if q.unit != "" {
		return 0, fmt.Errorf("%q is not a plain number: leave %q out", s, q.unit)
	}
	return q.number, nil
}

// Deg turns radians into degrees.
func Deg(rad float64) float64 { return rad * 180 / math.Pi }

// Rad turns degrees into radians.
func Rad(deg float64) float64 { return deg * math.Pi / 180 }
