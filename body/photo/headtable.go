package photo

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Views in which the head's landmarks can be seen. Those of a left landmark are
// named; the right one is seen in the mirror images.
var (
	everyHeadView = []View{HeadFront, HeadLeft, HeadRight, HeadLeftQuarter, HeadRightQuarter}
	bothQuarters  = []View{HeadFront, HeadLeft, HeadLeftQuarter, HeadRightQuarter}
	nearViews     = []View{HeadFront, HeadLeft, HeadLeftQuarter}
	profiles      = []View{HeadLeft, HeadRight}
)

// headTable is the mean head: heights from the means of the 5187 people of the
// 2012 US Army survey (tragion to top 129.6, eye corner to top 112.2, menton to
// sellion 119.5, head 196.3 long and 152.1 broad, bizygomatic 139.7, pupils
// 63.3 apart); depths as in the body form; the rest judgement. Deviations of
// clicks are judgement.
var headTable = slices.Concat(
	both(Landmark{Name: "pupil", mean: r3.Vec{X: 31.6, Y: 18, Z: 91}, Click: 1, Views: bothQuarters,
		HowTo: "The middle of the black of the eye."}),
	both(Landmark{Name: "inner eye corner", mean: r3.Vec{X: 16, Y: 16, Z: 86}, Click: 1, Views: []View{HeadFront, HeadLeftQuarter, HeadRightQuarter},
		HowTo: "Where the lids meet beside the nose (endocanthion)."}),
	both(Landmark{Name: "outer eye corner", mean: r3.Vec{X: 46, Y: 17.4, Z: 76}, Click: 1, Views: bothQuarters,
		HowTo: "Where the lids meet on the outer side of the eye (ectocanthion)."}),
	both(Landmark{Name: "mouth corner", mean: r3.Vec{X: 26, Y: -54, Z: 86}, Click: 1, Views: bothQuarters,
		HowTo: "Where the lips meet at the side, mouth closed (cheilion)."}),
	both(Landmark{Name: "tragion", mean: r3.Vec{X: 71}, Click: 1.5, Views: nearViews,
		HowTo: "The notch above the small flap in front of the ear hole."}),
	both(Landmark{Name: "cheekbone", mean: r3.Vec{X: 69.8, Y: -2, Z: 38}, Click: 2, Views: []View{HeadFront},
		HowTo: "The outermost place of the cheekbone's arch, seen from the front (zygion)."}),
	both(Landmark{Name: "side of the head", mean: r3.Vec{X: 76.1, Y: 50, Z: widest}, Click: 2, Views: []View{HeadFront}, rim: uAxis,
		HowTo: "The outermost place of the skull above the ear, seen from the front, hair pressed flat (euryon)."}),
	[]Landmark{
		{Name: "brow middle", mean: r3.Vec{Y: 36, Z: 107}, Click: 1.5, Views: everyHeadView,
			HowTo: "Between the brows on the mid-line, the foremost place of the forehead seen from the side (glabella)."},
		{Name: "nose root", mean: r3.Vec{Y: 24, Z: 99}, Click: 1.5, Views: everyHeadView,
			HowTo: "The deepest place of the nose's bridge between the eyes (sellion)."},
		{Name: "nose tip", mean: r3.Vec{Y: -18, Z: 121}, Click: 1, Views: everyHeadView,
			HowTo: "The foremost place of the nose (pronasale)."},
		{Name: "nose base", mean: r3.Vec{Y: -30, Z: 103}, Click: 1, Views: everyHeadView,
			HowTo: "Where the wall between the nostrils meets the upper lip (subnasale)."},
		{Name: "chin", mean: r3.Vec{Y: -95.5, Z: 88}, Click: 1.5, Views: everyHeadView,
			HowTo: "The lowest place of the chin on the mid-line, mouth closed (menton)."},
		{Name: "crown", mean: r3.Vec{Y: 129.6, Z: 5}, Click: 2, Views: everyHeadView, rim: vAxis,
			HowTo: "The top of the outline of the head, hair pressed flat (vertex)."},
		{Name: "back of the head", mean: r3.Vec{Y: 30, Z: -89.3}, Click: 2, Views: profiles, rim: uAxis,
			HowTo: "The hindmost place of the outline of the head, seen from the side, hair pressed flat (opisthocranion)."},
	},
)

// widest is where heads are broadest, mm in front of the ears: 17 to 20 mm behind
// them on four meshes of bare bodies; the body form has it over them.
const widest = -16

// HeadLandmarks lists the landmarks of a head.
func HeadLandmarks() []Landmark { return slices.Clone(headTable) }

// earEye is the slope, up over forward, from the middle between the tragions to
// the middle between the outer eye corners of a level head: the mean of the
// survey's people, who sat with the ear-eye plane level.
const earEye = 17.4 / 76
