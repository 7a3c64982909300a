package photo

// Counts tells which coordinates of a landmark's mark count: both, or of a place
// of the outline the one across it.
func (l Landmark) Counts() (x, y bool) { return l.rim != vAxis, l.rim != uAxis }
