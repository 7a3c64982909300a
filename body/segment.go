package body

// Segment is a part of the body between joints.
type Segment string

// The segments. Limbs come twice, left and right.
const (
	Head     Segment = "head"
	Neck     Segment = "neck"
	Torso    Segment = "torso"
	UpperArm Segment = "upper arm"
	Forearm  Segment = "forearm"
	Hand     Segment = "hand"
	Thigh    Segment = "thigh"
	Shank    Segment = "shank"
	Foot     Segment = "foot"
)
