package sheet

import "math"

// simulations are what the solver of this program reached on 150 made-up heads,
// front, side and three-quarter, with a ruler and with marks of usual care, mm: root
// mean square errors; of hair and of a chin that moved, the mean shift. Tests hold
// some of them to the solver.
func simulations() []Cost {
	const source = "simulated"
	no := math.NaN()
	from := func(mm float64) []float64 { return []float64{no, no, mm, no, no} } // 1.5 m
	return []Cost{
		{"All as usual: three views, ruler, no tape", "head length", []float64{5.1, 3.8, 3.2, 2.9, 2.7}, source},
		{"", "face length", []float64{2.8, 2.1, 1.9, 1.7, 1.7}, source},
		{"", "chin to crown", []float64{4.9, 3.5, 3.0, 2.8, 2.6}, source},
		{"", "head girth", []float64{16.4, 14.1, 13.4, 13.1, 12.9}, source},
		{"All as usual, and the head's girth taped to 3 mm", "head length", []float64{4.1, 3.3, 2.9, 2.8, 2.6}, source},
		{"", "head girth", []float64{2.7, 2.9, 2.9, 2.9, 2.9}, source},
		{"Front and side only", "head length", from(3.7), source},
		{"Hair that stands 5 mm off the head", "head length", from(4.8), source},
		{"", "head breadth", from(8.9), source},
		{"", "chin to crown", from(5.3), source},
		{"Mouth opened by 4 mm in the side picture only", "face length", from(1.2), source},
	}
}
