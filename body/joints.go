package body

import "gonum.org/v1/gonum/spatial/r3"

// Joint is where two segments turn against each other, in the rest pose and
// body axes. Turning what hangs below it by a positive angle about Axis (right
// hand) moves
//
//	shoulder  the arm forward and up      elbow  the hand forward and up
//	wrist     the hand towards its palm   hip    the thigh forward and up
//	knee      the shank backward          ankle  the toes up
//	neck      the face to the wearer's left
//
// For the neck it is the head, above the joint, that turns.
type Joint struct {
	Name   string
	Side   Side
	Centre r3.Vec
	Axis   r3.Vec // unit
}

// Joint gives a joint by name; Both for the neck, Left or Right for the others.
func (f *Form) Joint(name string, side Side) (Joint, bool) {
	for _, j := range f.joints {
		if j.Name == name && j.Side == side {
			return j, true
		}
	}
	return Joint{}, false
}
