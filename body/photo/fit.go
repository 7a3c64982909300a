package photo

// Fits tells whether the other marks expect the mark where it is.
func (f Fit) Fits() bool { return f.Surprise <= surprising }

// Checked tells whether the others would show it if the mark were wrong.
func (f Fit) Checked() bool { return f.Redundancy >= unchecked }
