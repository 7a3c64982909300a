package template

import "tasset/body"

// stations are the levels that the body form names on each segment, as
// formulas write them. A test holds them to the form.
var stations = map[body.Segment][]string{
	body.Head:     {"nape", "chin", "jaw", "mouth", "nose_base", "ear", "eyes", "brow", "crown"},
	body.Neck:     {"neck_base", "neck", "neck_top"},
	body.Torso:    {"crotch", "hip", "upper_hip", "waist", "natural_waist", "underbust", "chest", "armpit", "mid_shoulder", "shoulder", "lower_shoulder_slope", "shoulder_slope"},
	body.UpperArm: {"elbow", "biceps", "deltoid", "shoulder"},
	body.Forearm:  {"wrist", "lower_forearm", "mid_forearm", "forearm", "elbow"},
	body.Hand:     {"finger_tips", "fingers", "knuckles", "mid_palm", "wrist"},
	body.Thigh:    {"knee", "lower_thigh", "mid_thigh", "thigh_top"},
	body.Shank:    {"ankle", "lower_shank", "mid_shank", "calf", "below_knee", "knee"},
	body.Foot:     {"toe_tip", "toes", "ball", "instep", "foot_ankle", "heel"},
}

// segments are the parts of the body, from above.
var segments = []body.Segment{body.Head, body.Neck, body.Torso, body.UpperArm, body.Forearm, body.Hand, body.Thigh, body.Shank, body.Foot}

// Stations are the names of a segment's levels as formulas write them, from
// below.
func Stations(s body.Segment) []string { return append([]string(nil), stations[s]...) }

// limb tells whether a segment comes twice.
func limb(s body.Segment) bool {
	return s != body.Head && s != body.Neck && s != body.Torso
}
