package body

import "math"

// HatGirth is the head girth, mm, that a US hat size stands for: the size is
// the diameter in inches of a circle of that girth. European sizes are the girth
// in centimetres; British ones are given both like the American and 1/8 less, so
// they are not read. Source: hat makers' tables, which agree.
func HatGirth(us float64) float64 { return us * math.Pi * 25.4 }

// HatSize is the US hat size of a head girth in mm, to the nearest eighth.
func HatSize(girth float64) float64 { return math.Round(girth/25.4/math.Pi*8) / 8 }

// EuropeanHatSize is the head girth in whole centimetres.
func EuropeanHatSize(girth float64) int { return int(math.Round(girth / 10)) }
