package sheet

import "math"

// simulations are what the solver of this program reached on 300 made-up heads,
// front, side and three-quarter, with a ruler and with marks of usual care, mm: root
// mean square errors; of hair and of a chin that moved, the mean shift. Tests hold
// some of them to the solver.
func simulations() []Cost {
	const source = "simulated"
	no := math.NaN()
	from := func(mm float64) []float64 { return []float64{no, no, mm, no, no} } // 1.5 m
	return []Cost{
		{"All as usual: three views, ruler, no tape", "head length", []float64{5.3, 4.0, 3.4, 3.2, 3.0}, source},
		{"", "face length", []float64{3.0, 2.2, 1.9, 1.8, 1.7}, source},
		{"", "chin to crown", []float64{5.4, 3.9, 3.2, 2.9, 2.7}, source},
		{"", "head girth", []float64{18.7, 15.5, 14.6, 14.1, 13.6}, source},
		{"All as usual, and the head's girth taped to 3 mm", "head length", []float64{3.9, 3.3, 3.0, 2.9, 2.7}, source},
		{"", "head girth", []float64{2.9, 2.9, 2.9, 2.9, 2.9}, source},
		{"Front and side only", "chin to crown", from(4.0), source},
		{"Hair that stands 5 mm off the head", "head length", from(4.8), source},
		{"", "head breadth", from(10.0), source},
		{"", "chin to crown", from(4.9), source},
		{"Mouth opened by 4 mm in the side picture only", "face length", from(1.2), source},
	}
}
