package units

import "math"

// Round rounds a coordinate that leaves the program to 0.001 mm and never
// gives a negative zero. Every coordinate in a file that we write goes through
// it, so that the same input gives the same bytes.
func Round(v float64) float64 {
	r := math.Round(v*1000) / 1000
	if r == 0 {
		return 0
	}
	return r
}
