package body

// Scatter is how far the skin of a real body lies from the form that its sizes
// give, outside or inside, mm: on average, and what one place in twenty exceeds.
type Scatter struct{ Mean, Tail float64 }

// scatters were measured on two whole bodies that nobody of this project drew
// and that set no figure of the form, by girths, breadths, depths and heights
// taped on them, in their own posture: the worse of the two, rounded up. Of the
// head only the skull above the brow was measured; of hands and feet nothing.
var scatters = map[Segment]Scatter{
	Head: {2.5, 8.5}, Neck: {5.5, 14}, Torso: {6, 16.5},
	UpperArm: {2.5, 6.5}, Forearm: {2.5, 6}, Thigh: {4.5, 12}, Shank: {3.5, 9},
}

// ScatterOf is the scatter of a segment; false where it was not measured. A piece
// may come nearer to the body by that much than it clears the form.
func ScatterOf(s Segment) (Scatter, bool) {
	out, ok := scatters[s]
	return out, ok
}
